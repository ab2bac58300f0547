/** Where read states come from: text logs, fillers, holes. */
package sectorglass.workbench.recovery.states;
