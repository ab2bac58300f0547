package sectorglass.practice.lesson.place;

/** A place, to be found on a disk. */
@FunctionalInterface
public interface PlaceExpression {

    /** @throws sectorglass.practice.lesson.LessonException where the disk has no such place */
    Spot in(Ground ground);
}
