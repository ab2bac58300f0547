/** Reports from the window. */
package sectorglass.workbench.recovery.report;
