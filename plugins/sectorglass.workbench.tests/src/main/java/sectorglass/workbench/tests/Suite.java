package sectorglass.workbench.tests;

import java.util.Arrays;

/** The test classes, in the order in which they run. */
final class Suite {
    static final Class<?>[] CLASSES = {WelcomeTest.class, OpenTest.class, SelectionTest.class, KeysTest.class, ReadStateTest.class,
        ThemeTest.class, ScrollTest.class, FindTest.class, MarkTest.class, GroupTest.class, PartsTest.class, CompareTest.class, RecoverTest.class,
        PlanTest.class, DrawingTest.class, HandOutTest.class, GrowingTest.class, ProposalsTest.class, FindingsTest.class,
        HabitsTest.class, TeachingTest.class, LessonsTest.class, LessonGermanTest.class, WayTest.class, ContrastTest.class, RobotTest.class, RestartTest.class, MonkeyTest.class, LogTest.class};
    /** Not part of the suite: proves that a failing test fails the build; measures; makes pictures; what {@link RestartTest} starts. */
    private static final Class<?>[] MORE = {MustFail.class, Figures.class, Screenshots.class, RecoverScreenshots.class,
        SectorsScreenshots.class, HabitsScreenshots.class, LearnScreenshots.class, Leaving.class, Restored.class, LeavingParts.class, RestoredGerman.class};

    private Suite() {
    }

    static Class<?>[] named(String names) {
        return Arrays.stream(names.split(","))
                .map(name -> java.util.stream.Stream.concat(Arrays.stream(CLASSES), Arrays.stream(MORE))
                        .filter(type -> type.getSimpleName().equals(name)).findFirst()
                        .orElseThrow(() -> new IllegalArgumentException("no test class " + name)))
                .toArray(Class<?>[]::new);
    }
}
