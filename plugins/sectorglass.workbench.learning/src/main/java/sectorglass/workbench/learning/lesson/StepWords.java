package sectorglass.workbench.learning.lesson;

import java.util.List;

import sectorglass.practice.lesson.TextPart;

/**
 * A step as it is shown: its texts with the values of the disk in them.
 *
 * @param text the idea
 * @param ask the request; empty where the step is only read
 * @param problem why the step cannot be shown, a sentence, or null
 */
record StepWords(List<TextPart> text, List<TextPart> ask, String problem) { }
