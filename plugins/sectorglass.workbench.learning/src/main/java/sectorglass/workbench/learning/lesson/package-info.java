/** Lessons in the window: the list, the text of a step, what it points at, answers and their judgement. */
package sectorglass.workbench.learning.lesson;
