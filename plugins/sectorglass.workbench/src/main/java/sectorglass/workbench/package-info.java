/**
 * The window: the application, its advisors, the perspective <em>Inspect</em>. What is open and where the caret stands is told by
 * {@code sectorglass.workbench.model}; the parts that show it lie in {@code sectorglass.workbench.parts}. Engines know nothing of it.
 */
package sectorglass.workbench;
