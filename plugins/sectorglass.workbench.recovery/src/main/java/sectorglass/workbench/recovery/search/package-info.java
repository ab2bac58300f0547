/** The part Search: lost structures and the content of unknown disks. */
package sectorglass.workbench.recovery.search;
