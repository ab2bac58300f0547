/** The menu that chooses what is shown of the sectors: gloss, bytes per row, text, offsets. */
package sectorglass.workbench.shown;
