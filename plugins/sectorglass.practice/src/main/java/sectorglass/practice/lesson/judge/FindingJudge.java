package sectorglass.practice.lesson.judge;

import java.util.List;

import sectorglass.practice.lesson.Answer;
import sectorglass.practice.lesson.Judgement;
import sectorglass.practice.lesson.LessonException;
import sectorglass.practice.lesson.Step;
import sectorglass.practice.lesson.Task;
import sectorglass.practice.lesson.WrongAnswer;
import sectorglass.verify.Finding;

/** Judges the choice of a finding. */
public final class FindingJudge {
    private final Bench bench;
    private final List<Finding> findings;

    /** @param findings those that can be chosen */
    public FindingJudge(Bench bench, List<Finding> findings) {
        this.bench = bench;
        this.findings = findings;
    }

    /** The verdict on a finding. */
    public Judgement judge(Step step, Task.ChooseFinding task, Answer.Chosen answer) {
        solution(task);
        Finding chosen = findings.stream().filter(f -> f.check().equals(answer.check()) && f.where().start() == answer.firstByte()).findFirst()
                .orElse(null);
        if (chosen == null) {
            return bench.pattern("no-finding", answer.check());
        }
        if (fits(chosen, task)) {
            return bench.right(step);
        }
        for (WrongAnswer wrong : step.wrong()) {
            if (wrong.pattern().equals(chosen.check())) {
                return bench.own(wrong.why());
            }
        }
        return bench.pattern(chosen.check().equals(task.check()) ? "finding-elsewhere" : "other-finding", bench.where(chosen.where().start()),
                chosen.what());
    }

    private boolean fits(Finding finding, Task.ChooseFinding task) {
        return finding.check().equals(task.check()) && (task.at() == null || finding.where().overlaps(bench.spot(task.at()).range()));
    }

    /** The right finding. */
    public Finding solution(Task.ChooseFinding task) {
        return findings.stream().filter(f -> fits(f, task)).findFirst()
                .orElseThrow(() -> new LessonException("the disk has no finding " + task.check() + (task.at() == null ? "" : " at " + task.at())));
    }
}
