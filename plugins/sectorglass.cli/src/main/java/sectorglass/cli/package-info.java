/** The commands. */
package sectorglass.cli;
