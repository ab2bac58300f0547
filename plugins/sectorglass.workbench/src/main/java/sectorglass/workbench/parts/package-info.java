/** The parts of the window. Each shows what lies on the desk and tells it what was chosen; none knows another one. */
package sectorglass.workbench.parts;
