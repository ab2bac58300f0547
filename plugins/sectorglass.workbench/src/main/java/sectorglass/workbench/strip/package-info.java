/** The whole disk in one drawing: partitions, read state and findings to scale, with a readable minimum for small ones. */
package sectorglass.workbench.strip;
