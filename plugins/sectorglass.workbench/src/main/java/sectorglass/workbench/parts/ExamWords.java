package sectorglass.workbench.parts;

import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Exam;

/** Why a part stays closed while an exam runs. */
public final class ExamWords {

    private ExamWords() {
    }

    /** The sentence that stands in the part. */
    public static String closed(Exam exam) {
        return Texts.of(exam == Exam.SHEET ? "exam.closed.sheet" : "exam.closed.here");
    }
}
