/** The list of findings: asked for, grouped, sorted, shown row by row, copied and exported. */
package sectorglass.workbench.findings;
