package sectorglass.cli;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import sectorglass.image.SafeText;
import sectorglass.practice.disk.AnswerForm;
import sectorglass.practice.disk.AnswerKey;
import sectorglass.practice.disk.DiskKey;
import sectorglass.practice.disk.Grade;
import sectorglass.practice.disk.GradeText;
import sectorglass.practice.disk.Grading;
import sectorglass.practice.disk.PracticeException;
import sectorglass.report.JsonOut;

/** Grades answer forms and prints what came of it; with several forms, a table at the end. */
final class PracticeGrades {
    private final PrintStream out;
    private final PrintStream err;
    private final boolean json;
    private final Locale locale;

    PracticeGrades(PrintStream out, PrintStream err, boolean json, Locale locale) {
        this.out = out;
        this.err = err;
        this.json = json;
        this.locale = locale;
    }

    /** A form and its grade. */
    private record Result(String file, Grade grade) { }

    int run(List<String> forms, Path keyFile) throws IOException {
        AnswerKey key = AnswerKey.read(keyFile);
        List<Result> results = new ArrayList<>();
        boolean all = true;
        for (String form : forms) {
            try {
                results.add(grade(form, AnswerForm.read(Path.of(form)), key));
            } catch (PracticeException e) {
                if (forms.size() == 1) {
                    throw e;
                }
                err.println(e.getMessage());
                all = false;
            }
        }
        if (json) {
            try (JsonOut to = new JsonOut(out)) {
                to.object(() -> to.array("grades", results, r -> write(to, (Result) r))).line();
            }
        } else if (results.size() > 1) {
            Table table = new Table("lllr");
            table.row("form", "disk", "name", "points");
            results.forEach(r -> table.row(r.file(), r.grade().code(), SafeText.of(r.grade().name()), r.grade().points() + " / " + r.grade().most()));
            table.print(out, "");
        }
        return all ? Status.DONE : Status.USE;
    }

    private Result grade(String file, AnswerForm form, AnswerKey key) throws PracticeException {
        DiskKey disk = key.disk(form.code()).orElseThrow(() -> new PracticeException(file + " answers for disk \"" + SafeText.of(form.code())
                + "\", to which this key has no answer."));
        Grade grade = new Grading(disk).grade(form);
        if (!json) {
            new GradeText(disk, locale).lines(grade).forEach(line -> out.println(SafeText.of(line)));
            out.println();
        }
        return new Result(file, grade);
    }

    private static void write(JsonOut to, Result result) {
        Grade grade = result.grade();
        to.object(() -> {
            to.field("form", result.file()).field("disk", grade.code()).field("name", grade.name()).field("points", grade.points()).field("most", grade.most())
                    .field("count", grade.count()).field("falseFindings", grade.wrong().size());
            to.array("faults", grade.faults(), f -> {
                Grade.Graded graded = (Grade.Graded) f;
                to.object(() -> to.field("check", graded.fault().check()).field("firstByte", graded.fault().places().get(0).firstByte())
                        .field("named", graded.answer() != null).field("checkPoints", graded.check()).field("placePoints", graded.place())
                        .field("valuePoints", graded.value()).field("what", graded.fault().what()));
            });
        });
    }
}
