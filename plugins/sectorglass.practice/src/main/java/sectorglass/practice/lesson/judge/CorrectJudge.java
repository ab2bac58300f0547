package sectorglass.practice.lesson.judge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import sectorglass.decode.FieldNode;
import sectorglass.disk.Repair;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.practice.lesson.Answer;
import sectorglass.practice.lesson.Judgement;
import sectorglass.practice.lesson.Lesson;
import sectorglass.practice.lesson.LessonException;
import sectorglass.practice.lesson.Step;
import sectorglass.practice.lesson.Task;
import sectorglass.practice.lesson.WrongAnswer;
import sectorglass.practice.lesson.place.Expressions;
import sectorglass.practice.lesson.place.Filling;
import sectorglass.practice.lesson.place.Spot;
import sectorglass.recovery.propose.Effect;
import sectorglass.recovery.propose.FieldValue;
import sectorglass.recovery.propose.HandEdit;
import sectorglass.recovery.propose.Judge;
import sectorglass.verify.Finding;
import sectorglass.verify.RuleBook;
import sectorglass.verify.Verdict;

/** Judges a correction: by the field, by its value, and by what the checks say with it. */
public final class CorrectJudge {
    private final Bench bench;
    private final RuleBook book;
    private final Lesson lesson;

    /**
     * With these rules.
     *
     * @param lesson what its other steps ask for may stand over the image, too
     */
    public CorrectJudge(Bench bench, RuleBook book, Lesson lesson) {
        this.bench = bench;
        this.book = book;
        this.lesson = lesson;
    }

    /** The verdict on changes by hand. */
    public Judgement judge(Step step, Task.CorrectField task, Answer.Changed answer) {
        SectorImage image = bench.ground().disk().image();
        if (answer.changes().stream().anyMatch(change -> change.firstByte() < 0 || change.firstByte() > image.bytes() - change.bytes().length)) {
            return bench.pattern("outside");
        }
        List<Repair.Change> wanted = wanted(task);
        List<Repair.Change> others = others(task, wanted);
        List<Repair.Change> real = answer.changes().stream().filter(change -> differs(image, change) && !holds(others, change)).toList();
        if (real.isEmpty()) {
            return bench.pattern("nothing-changed");
        }
        if (real.stream().noneMatch(change -> touches(wanted, change))) {
            return elsewhere(step, real.get(0));
        }
        SectorImage over = HandEdit.over(image, real);
        for (int i = 0; i < wanted.size(); i++) {
            Repair.Change field = wanted.get(i);
            byte[] now = over.window(field.firstByte(), field.bytes().length).raw(0, field.bytes().length);
            if (!Arrays.equals(now, field.bytes())) {
                Spot target = bench.spot(task.fields().get(i).target());
                return real.stream().anyMatch(change -> change.range().overlaps(field.range())) ? value(step, target, now, field.bytes())
                        : bench.pattern("field-left", target.field().label(), bench.where(field.firstByte()));
            }
        }
        List<Repair.Change> dependents = HandEdit.dependents(image, wanted, bench.locale());
        for (Repair.Change change : real) {
            if (!touches(wanted, change) && !touches(dependents, change)) {
                return elsewhere(step, change);
            }
        }
        return checks(step, task, over, real, dependents);
    }

    /** What the other steps of the lesson ask for, with the checksums that depend on it. */
    private List<Repair.Change> others(Task.CorrectField task, List<Repair.Change> own) {
        List<Repair.Change> others = new ArrayList<>();
        for (Step step : lesson.steps()) {
            if (step.task() instanceof Task.CorrectField other && other != task) {
                wanted(other).stream().filter(change -> !touches(own, change)).forEach(others::add);
            }
        }
        if (!others.isEmpty()) {
            HandEdit.dependents(bench.ground().disk().image(), others, bench.locale()).stream().filter(change -> !touches(own, change))
                    .forEach(others::add);
        }
        return others;
    }

    /** Whether a change gives exactly the bytes that one of these gives in its place. */
    private static boolean holds(List<Repair.Change> asked, Repair.Change change) {
        return asked.stream().anyMatch(one -> one.range().contains(change.range()) && Arrays.equals(change.bytes(), Arrays.copyOfRange(one.bytes(),
                (int) (change.firstByte() - one.firstByte()), (int) (change.firstByte() - one.firstByte()) + change.bytes().length)));
    }

    /** Whether a change touches one of these. */
    private static boolean touches(List<Repair.Change> allowed, Repair.Change change) {
        return allowed.stream().anyMatch(one -> one.range().overlaps(change.range()));
    }

    private static boolean differs(SectorImage image, Repair.Change change) {
        int length = change.bytes().length;
        return !Arrays.equals(image.window(change.firstByte(), length).raw(0, length), change.bytes());
    }

    private Judgement elsewhere(Step step, Repair.Change change) {
        for (WrongAnswer wrong : step.wrong()) {
            if (bench.spot(wrong.pattern()).range().overlaps(change.range())) {
                return bench.own(wrong.why());
            }
        }
        FieldNode field = bench.fieldAt(change.firstByte());
        return field == null ? bench.pattern("changed-elsewhere", bench.where(change.firstByte()))
                : bench.pattern("changed-other-field", field.label(), bench.where(change.firstByte()));
    }

    private Judgement value(Step step, Spot target, byte[] now, byte[] wanted) {
        if (wanted.length > 1 && wanted.length <= 8 && target.field().raw() instanceof Long) {
            byte[] back = now.clone();
            for (int i = 0; i < back.length; i++) {
                back[i] = now[now.length - 1 - i];
            }
            if (Arrays.equals(back, wanted)) {
                return bench.pattern("written-swapped", wanted.length);
            }
            Judgement explained = new NumberJudge(bench).explain(number(now), number(wanted), target);
            if (explained != null) {
                return explained;
            }
        }
        return bench.otherwise(step);
    }

    private static long number(byte[] bytes) {
        long number = 0;
        for (int i = bytes.length - 1; i >= 0; i--) {
            number = number << 8 | bytes[i] & 0xFF;
        }
        return number;
    }

    private Judgement checks(Step step, Task.CorrectField task, SectorImage over, List<Repair.Change> real, List<Repair.Change> dependents) {
        Judge judge = new Judge(book);
        Judge.Run before = judge.run(bench.ground().disk().image(), Progress.NONE);
        Judge.Run after = judge.run(over, Progress.NONE);
        Effect effect = Judge.compare(before, after, real.stream().map(Repair.Change::range).toList(), List.of());
        for (Finding finding : after.findings().all()) {
            if (finding.verdict() == Verdict.FAILED && task.checks().contains(finding.check())) {
                return open(dependents, real) ? bench.pattern("checksum", Filling.grouped(dependents.get(0).firstByte()))
                        : bench.pattern("still-fails", finding.check(), finding.what());
            }
        }
        if (effect.harms()) {
            return open(dependents, real) ? bench.pattern("checksum", Filling.grouped(dependents.get(0).firstByte()))
                    : bench.pattern("now-fails", effect.worse().isEmpty() ? "" : effect.worse().get(0).what());
        }
        boolean turned = task.checks().stream().allMatch(id -> after.findings().all().stream()
                .anyMatch(f -> f.check().equals(id) && f.verdict() == Verdict.PASSED));
        return turned ? bench.right(step) : bench.otherwise(step);
    }

    /** Whether checksums that depend on the change were left as they stood. */
    private static boolean open(List<Repair.Change> dependents, List<Repair.Change> real) {
        return dependents.stream().anyMatch(d -> real.stream().noneMatch(change -> change.range().overlaps(d.range())));
    }

    private List<Repair.Change> wanted(Task.CorrectField task) {
        List<Repair.Change> wanted = new ArrayList<>();
        for (Task.CorrectField.Wanted field : task.fields()) {
            Spot target = bench.spot(field.target());
            wanted.add(new Repair.Change(target.range().start(), bytes(field, target), HandEdit.why(bench.locale())));
        }
        return wanted;
    }

    private byte[] bytes(Task.CorrectField.Wanted wanted, Spot target) {
        if (target.field() == null) {
            throw new LessonException("a correction needs a field, and only bytes are named: " + wanted.target());
        }
        FieldValue value = FieldValue.of(target.field(), bench.ground().fields(target.structure()),
                target.structure().reader().read(bench.ground().disk().image()));
        if (value == null) {
            throw new LessonException("the field " + target.field().path() + " cannot be changed");
        }
        String text = Expressions.value(wanted.answer()).in(bench.ground());
        try {
            return value.bytes(text);
        } catch (IllegalArgumentException e) {
            throw new LessonException(text + " does not fit into the field " + target.field().path() + ": " + e.getMessage(), e);
        }
    }

    /** The right changes: the fields and the checksums that depend on them. */
    public List<Repair.Change> solution(Task.CorrectField task) {
        List<Repair.Change> changes = wanted(task);
        changes.addAll(HandEdit.dependents(bench.ground().disk().image(), changes, bench.locale()));
        return changes;
    }
}
