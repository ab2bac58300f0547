/** Opens images off the window's thread: survey first, then the checks; keeps the list of recent images; finds providers as services. */
package sectorglass.workbench.opening;
