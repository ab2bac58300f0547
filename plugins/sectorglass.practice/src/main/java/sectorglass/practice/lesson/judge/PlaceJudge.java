package sectorglass.practice.lesson.judge;

import sectorglass.image.ByteRange;
import sectorglass.practice.lesson.Answer;
import sectorglass.practice.lesson.Judgement;
import sectorglass.practice.lesson.Step;
import sectorglass.practice.lesson.Task;
import sectorglass.practice.lesson.WrongAnswer;
import sectorglass.practice.lesson.place.Filling;

/** Judges a byte or a range of bytes. */
public final class PlaceJudge {
    private final Bench bench;

    /** With this disk. */
    public PlaceJudge(Bench bench) {
        this.bench = bench;
    }

    /** The verdict on a byte. */
    public Judgement judge(Step step, Task.ClickByte task, Answer.OnByte answer) {
        ByteRange right = bench.spot(task.target()).range();
        long at = answer.imageByte();
        if (right.contains(at)) {
            return bench.right(step);
        }
        for (WrongAnswer wrong : step.wrong()) {
            if (bench.spot(wrong.pattern()).range().contains(at)) {
                return bench.own(wrong.why());
            }
        }
        Judgement explained = near(at, right);
        return explained != null ? explained : bench.otherwise(step);
    }

    private Judgement near(long at, ByteRange right) {
        if (at < 0 || at >= bench.ground().disk().image().bytes()) {
            return bench.pattern("outside");
        }
        if (at == right.end() || at == right.start() - 1) {
            return bench.pattern(at == right.end() ? "byte-behind" : "byte-before", bench.where(at));
        }
        int size = bench.ground().sectorSize();
        long sector = right.start() - right.start() % size;
        if (otherBase(at - sector, right.start() - sector)) {
            return bench.pattern("offset-base", Filling.grouped(right.start() % size), Filling.hex(right.start() % size));
        }
        if (right.length() < size && bench.sameInOtherSector(at, right)) {
            return bench.pattern("other-sector", Filling.grouped(at / size));
        }
        return bench.belongs(at);
    }

    private static boolean otherBase(long at, long right) {
        if (at < 10 || right < 10) {
            return false;
        }
        return Long.toHexString(right).equals(Long.toString(at)) || Long.toString(right).equals(Long.toHexString(at));
    }

    /** The verdict on a range. */
    public Judgement judge(Step step, Task.SelectBytes task, Answer.Selected answer) {
        ByteRange right = bench.spot(task.target()).range();
        ByteRange chosen = answer.range();
        if (chosen.equals(right)) {
            return bench.right(step);
        }
        for (WrongAnswer wrong : step.wrong()) {
            if (bench.spot(wrong.pattern()).range().equals(chosen)) {
                return bench.own(wrong.why());
            }
        }
        if (chosen.length() == 0) {
            return bench.pattern("nothing-selected");
        }
        if (chosen.start() == right.start()) {
            return bench.pattern(chosen.length() < right.length() ? "too-short" : "too-long", Filling.grouped(chosen.length()),
                    Filling.grouped(right.length()));
        }
        if (chosen.end() == right.end()) {
            return bench.pattern("wrong-start", Filling.grouped(chosen.length()), Filling.grouped(right.length()));
        }
        if (chosen.length() == right.length() && Math.abs(chosen.start() - right.start()) == 1) {
            return bench.pattern("shifted");
        }
        if (right.contains(chosen) || chosen.contains(right)) {
            return bench.pattern(chosen.length() < right.length() ? "only-a-part" : "more-than", Filling.grouped(right.length()));
        }
        Judgement explained = near(chosen.start(), right);
        return explained != null ? explained : bench.otherwise(step);
    }
}
