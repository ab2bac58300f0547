/** Forms of numbers, dates, addresses and ids that a person wants changed into one another. No window toolkit in here. */
package sectorglass.workbench.convert;
