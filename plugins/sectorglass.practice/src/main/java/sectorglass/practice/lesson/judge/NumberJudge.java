package sectorglass.practice.lesson.judge;

import java.util.OptionalLong;

import sectorglass.practice.lesson.Answer;
import sectorglass.practice.lesson.Judgement;
import sectorglass.practice.lesson.LessonException;
import sectorglass.practice.lesson.Step;
import sectorglass.practice.lesson.Task;
import sectorglass.practice.lesson.WrongAnswer;
import sectorglass.practice.lesson.place.Expressions;
import sectorglass.practice.lesson.place.Filling;
import sectorglass.practice.lesson.place.Spot;

/** Judges a number. */
public final class NumberJudge {
    private final Bench bench;

    /** With this disk. */
    public NumberJudge(Bench bench) {
        this.bench = bench;
    }

    /** The verdict on a typed number. */
    public Judgement judge(Step step, Task.TypeNumber task, Answer.Typed answer) {
        long right = Expressions.number(task.answer()).in(bench.ground());
        boolean hex = task.unit().equals("hex");
        OptionalLong typed = TypedNumber.of(answer.text(), hex);
        if (typed.isEmpty()) {
            return bench.pattern("no-number", answer.text().strip());
        }
        if (typed.getAsLong() == right) {
            return bench.right(step);
        }
        for (WrongAnswer wrong : step.wrong()) {
            if (Expressions.number(wrong.pattern()).in(bench.ground()) == typed.getAsLong()) {
                return bench.own(wrong.why());
            }
        }
        Judgement explained = explain(typed.getAsLong(), right, bench.spot(step.point()));
        return explained != null ? explained : bench.otherwise(step);
    }

    /** Which thought leads from the right number to this one; null where none is known. */
    Judgement explain(long typed, long right, Spot point) {
        int size = bench.ground().sectorSize();
        String shown = Filling.grouped(typed);
        int width = point.field() != null && point.field().length() > 1 && point.field().length() <= 8 ? (int) point.field().length() : 0;
        for (int bytes = 2; bytes <= 8; bytes *= 2) {
            if ((width == 0 || width == bytes) && fits(right, bytes) && typed == swapped(right, bytes)) {
                return bench.pattern("swapped", shown, bytes);
            }
        }
        if (otherBase(typed, right)) {
            return bench.pattern("other-base", shown);
        }
        if (typed == right + 1 || typed == right - 1) {
            return bench.pattern(typed > right ? "one-more" : "one-less", shown);
        }
        if (times(typed, right, size) || times(right, typed, size)) {
            return bench.pattern("sector-byte", shown, size);
        }
        if (times(typed, right, 8) || times(right, typed, 8)) {
            return bench.pattern("sector-size", shown);
        }
        if (typed == right + 512 || typed == right - 512 || typed == right + 4096 || typed == right - 4096) {
            return bench.pattern("off-by-sector", shown);
        }
        return relative(typed, right, point, shown);
    }

    private Judgement relative(long typed, long right, Spot point, String shown) {
        long lba = point.range().start() / bench.ground().sectorSize();
        return bench.ground().disk().partitions().stream().filter(p -> p.placed() && p.range().contains(lba) && p.range().first() > 0)
                .filter(p -> typed == right - p.range().first() || typed == right + p.range().first()).findFirst()
                .map(p -> bench.pattern(typed < right ? "from-partition" : "from-disk", shown, p.number())).orElse(null);
    }

    private static boolean times(long larger, long smaller, long factor) {
        return smaller != 0 && larger % factor == 0 && larger / factor == smaller;
    }

    private static boolean fits(long number, int bytes) {
        return bytes == 8 || number >>> 8 * bytes == 0;
    }

    private static long swapped(long number, int bytes) {
        return Long.reverseBytes(number) >>> 64 - 8 * bytes;
    }

    /** Whether one is the other's digits read in the other base. */
    private static boolean otherBase(long typed, long right) {
        return right > 9 && typed > 9 && (reads(Long.toHexString(right), typed, 10) || reads(Long.toString(right), typed, 16));
    }

    private static boolean reads(String digits, long number, int base) {
        try {
            return Long.parseLong(digits, base) == number;
        } catch (NumberFormatException e) {
            return false;
        }
    }

    /** The right answer in the form that the unit asks for. */
    public String solution(Task.TypeNumber task) {
        long right = Expressions.number(task.answer()).in(bench.ground());
        if (right < 0) {
            throw new LessonException("the right answer is negative: " + task.answer());
        }
        return task.unit().equals("hex") ? Filling.hex(right) : Long.toString(right);
    }
}
