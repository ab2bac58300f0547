/**
 * What is open and where the caret stands, without a window. {@link sectorglass.workbench.model.Desk} is the one place where parts meet:
 * they tell it what was chosen and hear from it what to show. Decoding runs on a worker; listeners are called on the thread of the window.
 */
package sectorglass.workbench.model;
