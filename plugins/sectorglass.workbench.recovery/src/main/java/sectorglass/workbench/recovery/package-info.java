/**
 * The perspective <em>Recover</em>: files, read plan, copies, import of read states. What is computed comes from the engines; here it is
 * shown and asked for. This package holds what the parts share.
 */
package sectorglass.workbench.recovery;
