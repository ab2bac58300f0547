package sectorglass.practice.lesson;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** Plays every step of every lesson in both languages: the place is there, the right answer is taken, wrong ones are refused and explained. */
class PlayTest {
    private static final Lessons LESSONS = MadeDisks.LESSONS;

    @Test
    void productHoldsNoMistake() {
        assertEquals(List.of(), LESSONS.problems());
        assertFalse(LESSONS.all().isEmpty());
    }

    @TestFactory
    List<DynamicTest> everyStepIsPlayed() {
        List<DynamicTest> tests = new ArrayList<>();
        for (Locale locale : List.of(Locale.ENGLISH, Locale.GERMAN)) {
            for (Lesson lesson : LESSONS.all()) {
                tests.add(DynamicTest.dynamicTest(lesson.id() + " " + locale, () -> play(lesson, locale)));
            }
        }
        return tests;
    }

    private static void play(Lesson lesson, Locale locale) throws Exception {
        try (LessonRun run = MadeDisks.run(lesson, locale)) {
            for (Step step : lesson.steps()) {
                String name = lesson.file() + " line " + step.line() + " " + locale + ": ";
                StepPlace place = run.place(step);
                assertTrue(place.range().end() <= run.disk().image().bytes() && place.range().length() > 0, name + "place");
                assertFalse(run.text(step.text()).isBlank(), name + "text");
                if (step.format() != null) {
                    assertNotNull(place.structure(), name + "structure");
                    assertEquals(step.format(), place.structure().format(), name + "format");
                }
                Judgement right = run.judge(step, run.solution(step));
                assertTrue(right.right(), name + "the right answer is refused: " + right);
                if (!step.asks()) {
                    continue;
                }
                assertFalse(run.solutionText(step).isBlank(), name + "solution in words");
                List<Answer> wrong = WrongAnswers.of(step, run);
                int explained = 0;
                for (Answer answer : wrong) {
                    Judgement said = run.judge(step, answer);
                    assertFalse(said.right(), name + "a wrong answer is taken: " + answer);
                    assertFalse(said.explanation().isBlank(), name + "no explanation: " + answer);
                    explained += said.pattern() == null ? 0 : 1;
                }
                assertTrue(wrong.size() >= 3, name + "three wrong answers");
                assertTrue(explained >= 3, name + "explained by a pattern: " + explained + " of " + wrong.size());
                for (WrongAnswer own : step.wrong()) {
                    Judgement said = run.judge(step, WrongAnswers.of(step, own, run));
                    assertEquals("own", said.pattern(), name + "own explanation of " + own.pattern());
                    assertEquals(run.text(own.why()), said.explanation(), name + "own explanation of " + own.pattern());
                }
            }
        }
    }
}
