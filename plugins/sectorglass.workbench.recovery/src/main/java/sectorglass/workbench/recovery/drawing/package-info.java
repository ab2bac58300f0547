/** What was recovered, drawn: bars by kind or by folder, to scale, with the same in words. */
package sectorglass.workbench.recovery.drawing;
