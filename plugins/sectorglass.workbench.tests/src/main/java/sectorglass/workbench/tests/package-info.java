/** Tests inside the real workbench, run by an application of its own; see {@code features/uitest}. */
package sectorglass.workbench.tests;
