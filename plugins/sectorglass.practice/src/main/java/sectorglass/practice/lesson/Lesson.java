package sectorglass.practice.lesson;

import java.util.List;
import java.util.Optional;

/**
 * A lesson as it was read from its file.
 *
 * @param id lower case with hyphens; the same in every language and version
 * @param order where it stands in the row of lessons
 * @param title its name for people
 * @param disk name of the disk that it is played on, see {@link Lessons#disk}
 * @param sources the published standards that hold its facts
 * @param steps in order; at least one
 * @param file name of the file it was read from
 */
public record Lesson(String id, int order, Words title, String disk, List<String> sources, List<Step> steps, String file) {

    /** Makes lists fixed. */
    public Lesson {
        sources = List.copyOf(sources);
        steps = List.copyOf(steps);
    }

    /** A step by its id. */
    public Optional<Step> step(String stepId) {
        return steps.stream().filter(step -> step.id().equals(stepId)).findFirst();
    }
}
