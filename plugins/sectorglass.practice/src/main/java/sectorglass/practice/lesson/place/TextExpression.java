package sectorglass.practice.lesson.place;

/** A text, to be read from a disk. */
@FunctionalInterface
public interface TextExpression {

    /** @throws sectorglass.practice.lesson.LessonException where the disk does not give it */
    String in(Ground ground);
}
