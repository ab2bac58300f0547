package sectorglass.practice.lesson;

import java.util.List;

/**
 * One step of a lesson: one idea, a place that it points at, and something to do.
 *
 * @param id lower case with hyphens, once in its lesson
 * @param text the idea in a few plain sentences
 * @param point the place it points at, as an expression; {@link LessonRun#place} finds it
 * @param format id of the format that explains the bytes, or null: the one that fits the place
 * @param task what is to be done
 * @param ask the request in words, or null where the step is only read
 * @param right what is said after the right answer, or null
 * @param otherwise what is said to a wrong answer that nothing else explains, or null where the step is only read
 * @param wrong explanations of typical wrong answers, tried in order before the general patterns
 * @param sources sources of facts of this step alone; may be empty
 * @param line line of the file where it begins, from 1
 */
public record Step(String id, Words text, String point, String format, Task task, Words ask, Words right, Words otherwise,
        List<WrongAnswer> wrong, List<String> sources, int line) {

    /** Makes lists fixed. */
    public Step {
        wrong = List.copyOf(wrong);
        sources = List.copyOf(sources);
    }

    /** Whether something is asked. */
    public boolean asks() {
        return !(task instanceof Task.ReadOn);
    }
}
