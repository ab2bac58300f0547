/** Formats that a person puts over bytes, and the memory of that choice. */
package sectorglass.workbench.byhand;
