/** The bytes of an image as a window paints them: read off its thread, in pages, and painted when they arrive. */
package sectorglass.workbench.pages;
