package sectorglass.practice.lesson.judge;

import java.util.Locale;

import sectorglass.practice.lesson.Answer;
import sectorglass.practice.lesson.Judgement;
import sectorglass.practice.lesson.Step;
import sectorglass.practice.lesson.Task;
import sectorglass.practice.lesson.WrongAnswer;
import sectorglass.practice.lesson.place.Expressions;

/** Judges a text; case and blanks do not count. */
public final class TextJudge {
    private final Bench bench;

    /** With this disk. */
    public TextJudge(Bench bench) {
        this.bench = bench;
    }

    /** The verdict on a typed text. */
    public Judgement judge(Step step, Task.TypeText task, Answer.Typed answer) {
        String right = bare(Expressions.text(task.answer()).in(bench.ground()));
        String typed = bare(answer.text());
        if (typed.isEmpty()) {
            return bench.pattern("empty");
        }
        if (typed.equals(right)) {
            return bench.right(step);
        }
        for (WrongAnswer wrong : step.wrong()) {
            if (typed.equals(bare(Expressions.text(wrong.pattern()).in(bench.ground())))) {
                return bench.own(wrong.why());
            }
        }
        boolean bytes = right.matches("([0-9a-f]{2})+");
        if (bytes && typed.equals(reversed(right, 2))) {
            return bench.pattern("bytes-reversed");
        }
        if (!bytes && typed.equals(reversed(right, 1))) {
            return bench.pattern("text-reversed");
        }
        if (typed.contains(right) && typed.length() > right.length()) {
            return bench.pattern("too-much");
        }
        if (right.contains(typed)) {
            return bench.pattern("too-little");
        }
        return bench.otherwise(step);
    }

    private static String bare(String text) {
        return text.toLowerCase(Locale.ROOT).replaceAll("0x|[\\s\\u2009\\u00A0\\u202F]", "");
    }

    private static String reversed(String text, int step) {
        StringBuilder back = new StringBuilder();
        for (int end = text.length(); end > 0; end -= step) {
            back.append(text, Math.max(0, end - step), end);
        }
        return back.toString();
    }

    /** The right answer. */
    public String solution(Task.TypeText task) {
        return Expressions.text(task.answer()).in(bench.ground()).strip();
    }
}
