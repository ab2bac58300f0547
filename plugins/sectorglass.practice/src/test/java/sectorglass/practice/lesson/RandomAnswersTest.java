package sectorglass.practice.lesson;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;
import net.jqwik.api.constraints.Size;
import net.jqwik.api.lifecycle.AfterContainer;
import net.jqwik.api.lifecycle.BeforeContainer;

import sectorglass.disk.Repair;
import sectorglass.image.ByteRange;

/** No random answer is taken for right unless it is the right one. */
class RandomAnswersTest {
    private static final Lessons LESSONS = MadeDisks.LESSONS;
    private static final Map<Step, LessonRun> ASKING = new LinkedHashMap<>();
    private static final List<LessonRun> RUNS = new ArrayList<>();

    @BeforeContainer
    static void open() throws Exception {
        for (Lesson lesson : LESSONS.all()) {
            LessonRun run = MadeDisks.run(lesson, Locale.ENGLISH);
            RUNS.add(run);
            lesson.steps().stream().filter(Step::asks).forEach(step -> ASKING.put(step, run));
        }
    }

    @AfterContainer
    static void close() {
        RUNS.forEach(LessonRun::close);
    }

    private static Step pick(Class<? extends Task> kind, int which) {
        List<Step> steps = ASKING.keySet().stream().filter(step -> kind.isInstance(step.task())).toList();
        return steps.get(which % steps.size());
    }

    @Property(tries = 250)
    void numbers(@ForAll @IntRange(min = 0, max = 1000) int which, @ForAll long number, @ForAll boolean small) {
        Step step = pick(Task.TypeNumber.class, which);
        LessonRun run = ASKING.get(step);
        long typed = small ? Math.floorMod(number, 70_000L) : number;
        String right = ((Answer.Typed) run.solution(step)).text();
        long wanted = right.startsWith("0x") ? Long.parseLong(right.substring(2), 16) : Long.parseLong(right);
        assertEquals(typed == wanted, run.judge(step, new Answer.Typed("0x" + Long.toHexString(typed))).right(), step.id() + " " + typed);
    }

    @Property(tries = 250)
    void texts(@ForAll @IntRange(min = 0, max = 1000) int which, @ForAll boolean asText, @ForAll @Size(max = 12) String typed) {
        Step step = pick(asText ? Task.TypeText.class : Task.TypeNumber.class, which);
        LessonRun run = ASKING.get(step);
        String right = ((Answer.Typed) run.solution(step)).text();
        if (!typed.replaceAll("\\s", "").equalsIgnoreCase(right.replaceAll("\\s", "")) && !typed.matches(".*[0-9].*")) {
            assertFalse(run.judge(step, new Answer.Typed(typed)).right(), step.id() + " " + typed);
        }
    }

    @Property(tries = 250)
    void bytes(@ForAll @IntRange(min = 0, max = 1000) int which, @ForAll long at, @ForAll boolean near) {
        Step step = pick(Task.ClickByte.class, which);
        LessonRun run = ASKING.get(step);
        ByteRange right = sectorglass.practice.lesson.place.Expressions.place(((Task.ClickByte) step.task()).target())
                .in(WrongAnswers.ground(run)).range();
        long clicked = near ? right.start() + at % 40 : at;
        assertEquals(right.contains(clicked), run.judge(step, new Answer.OnByte(clicked)).right(), step.id() + " " + clicked);
    }

    @Property(tries = 250)
    void ranges(@ForAll @IntRange(min = 0, max = 1000) int which, @ForAll @LongRange(min = -40, max = 40) long shift,
            @ForAll @LongRange(min = -40, max = 40) long longer) {
        Step step = pick(Task.SelectBytes.class, which);
        LessonRun run = ASKING.get(step);
        ByteRange right = ((Answer.Selected) run.solution(step)).range();
        ByteRange chosen = new ByteRange(Math.max(0, right.start() + shift), Math.max(0, right.length() + longer));
        assertEquals(chosen.equals(right), run.judge(step, new Answer.Selected(chosen)).right(), step.id() + " " + chosen);
    }

    @Property(tries = 200)
    void findings(@ForAll @IntRange(min = 0, max = 1000) int which, @ForAll @IntRange(min = 0, max = 100) int finding, @ForAll long at) {
        Step step = pick(Task.ChooseFinding.class, which);
        LessonRun run = ASKING.get(step);
        String check = run.findings().get(finding % run.findings().size()).check();
        String right = ((Task.ChooseFinding) step.task()).check();
        boolean there = run.findings().stream().anyMatch(f -> f.check().equals(check) && f.where().start() == at);
        assertEquals(there && check.equals(right), run.judge(step, new Answer.Chosen(check, at)).right(), step.id() + " " + check);
    }

    @Property(tries = 40)
    void corrections(@ForAll @IntRange(min = 0, max = 1000) int which, @ForAll @IntRange(min = -20, max = 20) int shift,
            @ForAll @Size(min = 1, max = 8) byte[] bytes) {
        Step step = pick(Task.CorrectField.class, which);
        LessonRun run = ASKING.get(step);
        List<Repair.Change> right = ((Answer.Changed) run.solution(step)).changes();
        long at = Math.max(0, right.get(0).firstByte() + shift);
        List<Repair.Change> changes = new ArrayList<>(right);
        changes.add(new Repair.Change(at, bytes, ""));
        // the same bytes that the right answer gives, or that stand there anyway, are no wrong answer
        var over = sectorglass.recovery.propose.HandEdit.over(run.disk().image(), right).window(at, bytes.length).raw(0, bytes.length);
        boolean same = Arrays.equals(over, bytes);
        assertEquals(same, run.judge(step, new Answer.Changed(changes)).right(), step.id() + " at " + at + " " + Arrays.toString(bytes));
    }
}
