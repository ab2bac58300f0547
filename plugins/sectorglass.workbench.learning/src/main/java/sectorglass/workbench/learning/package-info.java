/** The window for learning: the perspective, the part with the lesson, uncovering field by field. */
package sectorglass.workbench.learning;
