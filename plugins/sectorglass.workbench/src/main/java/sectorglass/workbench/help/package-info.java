/** The help: a short page for each part, the card of keys, the user guide; all of it in the installation. */
package sectorglass.workbench.help;
