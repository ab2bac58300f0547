package sectorglass.practice.lesson.place;

/** A number, to be computed from a disk. */
@FunctionalInterface
public interface NumberExpression {

    /** @throws sectorglass.practice.lesson.LessonException where the disk does not give it */
    long in(Ground ground);
}
