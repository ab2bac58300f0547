/** How places are written beside the bytes, and where clusters begin. */
package sectorglass.workbench.places;
