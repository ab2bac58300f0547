/** The commands. {@link sectorglass.cli.Main} is the only type others may use: it runs one command with given streams. */
package sectorglass.cli;
