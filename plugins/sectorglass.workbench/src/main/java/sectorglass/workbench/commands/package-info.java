/** What menus and keys do. */
package sectorglass.workbench.commands;
