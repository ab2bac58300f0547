package sectorglass.practice.lesson;

import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;

import sectorglass.decode.FormatCatalogue;
import sectorglass.disk.Repair;
import sectorglass.image.ByteRange;
import sectorglass.practice.lesson.place.Expressions;
import sectorglass.practice.lesson.place.Ground;
import sectorglass.practice.lesson.place.Spot;
import sectorglass.verify.Finding;

/** Wrong answers as people give them. */
final class WrongAnswers {
    private static final Map<LessonRun, Ground> GROUNDS = new IdentityHashMap<>();

    private WrongAnswers() {
    }

    /** Places of the disk of a run. */
    static synchronized Ground ground(LessonRun run) {
        return GROUNDS.computeIfAbsent(run, of -> new Ground(of.disk(), FormatCatalogue.ofProviders()));
    }

    /** At least three wrong answers to a step. */
    static List<Answer> of(Step step, LessonRun run) {
        Task task = step.task();
        List<Answer> wrong = new ArrayList<>();
        Answer solution = run.solution(step);
        if (solution instanceof Answer.OnByte at) {
            ByteRange right = Expressions.place(((Task.ClickByte) task).target()).in(ground(run)).range();
            addByte(wrong, right.start() - 1, run);
            addByte(wrong, right.end(), run);
            addByte(wrong, right.start() + run.disk().image().sectorSize(), right, run);
            addByte(wrong, right.start() - run.disk().image().sectorSize(), right, run);
        } else if (solution instanceof Answer.Selected selected) {
            ByteRange right = selected.range();
            wrong.add(new Answer.Selected(new ByteRange(right.start(), right.length() + 1)));
            wrong.add(new Answer.Selected(new ByteRange(right.start() + 1, right.length())));
            wrong.add(new Answer.Selected(new ByteRange(right.start() + 1, right.length() - 1)));
            wrong.add(new Answer.Selected(new ByteRange(right.start(), 0)));
        } else if (solution instanceof Answer.Typed typed && task instanceof Task.TypeNumber number) {
            long right = Expressions.number(number.answer()).in(ground(run));
            for (long other : new long[] {right + 1, right - 1, right * run.disk().image().sectorSize(), right * 8}) {
                if (other >= 0 && other != right) {
                    wrong.add(new Answer.Typed("0x" + Long.toHexString(other)));
                }
            }
            wrong.add(new Answer.Typed("about " + typed.text()));
            wrong.add(new Answer.Typed(""));
        } else if (solution instanceof Answer.Typed typed) {
            wrong.add(new Answer.Typed(" "));
            wrong.add(new Answer.Typed(typed.text() + "x"));
            wrong.add(new Answer.Typed(typed.text().substring(1)));
            wrong.add(new Answer.Typed("?"));
        } else if (solution instanceof Answer.Chosen chosen) {
            for (Finding finding : run.findings()) {
                if (!finding.check().equals(chosen.check())) {
                    wrong.add(new Answer.Chosen(finding.check(), finding.where().start()));
                }
            }
            wrong.add(new Answer.Chosen("no.such-check", 0));
            wrong.add(new Answer.Chosen(chosen.check(), chosen.firstByte() + 100_000));
            wrong.add(new Answer.Read());
        } else if (solution instanceof Answer.Changed changed) {
            Repair.Change first = changed.changes().get(0);
            byte[] flipped = first.bytes().clone();
            flipped[0] ^= 1;
            wrong.add(new Answer.Changed(List.of(new Repair.Change(first.firstByte(), flipped, ""))));
            wrong.add(new Answer.Changed(List.of()));
            long beside = first.firstByte() + first.bytes().length;
            byte[] next = run.disk().image().window(beside, 1).raw(0, 1);
            next[0] ^= 1;
            wrong.add(new Answer.Changed(List.of(new Repair.Change(beside, next, ""))));
            List<Repair.Change> more = new ArrayList<>(changed.changes());
            more.add(new Repair.Change(beside, next, ""));
            wrong.add(new Answer.Changed(more));
            wrong.add(new Answer.Typed("4"));
        }
        return wrong;
    }

    private static void addByte(List<Answer> wrong, long at, LessonRun run) {
        if (at >= 0 && at < run.disk().image().bytes()) {
            wrong.add(new Answer.OnByte(at));
        }
    }

    private static void addByte(List<Answer> wrong, long at, ByteRange right, LessonRun run) {
        if (!right.contains(at)) {
            addByte(wrong, at, run);
        }
    }

    /** The answer that a step's own explanation is for. */
    static Answer of(Step step, WrongAnswer own, LessonRun run) {
        Task task = step.task();
        if (task instanceof Task.TypeNumber) {
            return new Answer.Typed("0x" + Long.toHexString(Expressions.number(own.pattern()).in(ground(run))));
        }
        if (task instanceof Task.TypeText) {
            return new Answer.Typed(Expressions.text(own.pattern()).in(ground(run)));
        }
        if (task instanceof Task.ChooseFinding) {
            Finding finding = run.findings().stream().filter(f -> f.check().equals(own.pattern())).findFirst().orElseThrow();
            return new Answer.Chosen(finding.check(), finding.where().start());
        }
        Spot spot = Expressions.place(own.pattern()).in(ground(run));
        if (task instanceof Task.ClickByte) {
            return new Answer.OnByte(spot.range().start());
        }
        if (task instanceof Task.SelectBytes) {
            return new Answer.Selected(spot.range());
        }
        byte[] bytes = run.disk().image().window(spot.range().start(), 1).raw(0, 1);
        bytes[0] ^= 1;
        return new Answer.Changed(List.of(new Repair.Change(spot.range().start(), bytes, "")));
    }
}
