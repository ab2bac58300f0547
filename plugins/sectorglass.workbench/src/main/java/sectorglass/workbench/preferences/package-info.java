/** The settings of the window, in the platform's preferences. */
package sectorglass.workbench.preferences;
