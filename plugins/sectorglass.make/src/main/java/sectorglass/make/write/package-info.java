/** Building blocks that the writers of maps and volumes share: fields, clusters, dates, names. */
package sectorglass.make.write;
