package sectorglass.practice.lesson;

import java.util.List;
import java.util.Locale;

import sectorglass.image.Texts;
import sectorglass.verify.Finding;

/** Lessons as pages to be read without the program: Markdown with the real bytes of their disks, answers at the end. */
public final class LessonPage {
    private final Texts texts;
    private final Locale locale;

    /** Pages in a language. */
    public LessonPage(Locale locale) {
        this.locale = locale;
        texts = new Texts(LessonRun.class, locale);
    }

    /**
     * The page of a lesson.
     *
     * @param run the lesson on its disk, in the same language
     * @throws LessonException where the disk lacks what a step asks for
     */
    public String lesson(LessonRun run) {
        Lesson lesson = run.lesson();
        StringBuilder page = new StringBuilder();
        page.append("# ").append(lesson.order()).append(". ").append(lesson.title().in(locale)).append("\n\n");
        page.append(texts.of("page.disk", lesson.disk())).append("\n");
        StringBuilder answers = new StringBuilder();
        int number = 0;
        for (Step step : lesson.steps()) {
            number++;
            page.append("\n## ").append(texts.of("page.step", number)).append("\n\n").append(marked(run.text(step.text()))).append("\n\n");
            page.append("```\n").append(new HexExcerpt(run.disk().image(), run.place(step).range()).rows()).append("```\n");
            if (step.asks()) {
                page.append("\n**").append(texts.of("page.task")).append("** ").append(marked(run.text(step.ask()))).append("\n");
                if (step.task() instanceof Task.ChooseFinding) {
                    findings(page, run.findings());
                }
                answers.append(number).append(". ").append(run.solutionText(step));
                String right = run.text(step.right());
                answers.append(right.isEmpty() ? "" : ". " + marked(right)).append("\n");
            }
        }
        page.append("\n## ").append(texts.of("page.answers")).append("\n\n").append(answers);
        page.append("\n## ").append(texts.of("page.sources")).append("\n\n");
        lesson.sources().forEach(source -> page.append("- ").append(source).append("\n"));
        lesson.steps().stream().flatMap(step -> step.sources().stream()).distinct().forEach(source -> page.append("- ").append(source).append("\n"));
        return page.toString();
    }

    private void findings(StringBuilder page, List<Finding> findings) {
        page.append("\n").append(texts.of("page.findings")).append("\n\n");
        findings.forEach(finding -> page.append("- `").append(finding.check()).append("`: ").append(escaped(finding.what())).append("\n"));
    }

    /** The page of all terms. */
    public String glossary(Glossary glossary) {
        StringBuilder page = new StringBuilder("# ").append(texts.of("page.glossary")).append("\n\n");
        for (GlossaryTerm term : glossary.sorted(locale)) {
            page.append("**").append(term.name().in(locale)).append("**: ").append(marked(term.text().in(locale))).append("\n\n");
        }
        return page.toString().stripTrailing() + "\n";
    }

    /** The page that leads to the others, which stand beside it under the names of {@link #fileName}. */
    public String contents(List<Lesson> lessons) {
        StringBuilder page = new StringBuilder("# ").append(texts.of("page.title")).append("\n\n").append(texts.of("page.about")).append("\n\n");
        lessons.forEach(lesson -> page.append(lesson.order()).append(". [").append(lesson.title().in(locale)).append("](").append(fileName(lesson))
                .append(")\n"));
        return page.append("\n[").append(texts.of("page.glossary")).append("](glossary.md)\n").toString();
    }

    /** Name of the file of a lesson's page. */
    public static String fileName(Lesson lesson) {
        return String.format(Locale.ROOT, "%02d-%s.md", lesson.order(), lesson.id());
    }

    /** Our marks as Markdown. */
    private static String marked(String text) {
        StringBuilder page = new StringBuilder();
        for (TextPart part : TextPart.of(text)) {
            switch (part.kind()) {
                case DEFINED -> page.append("**").append(escaped(part.text())).append("**");
                case CODE -> page.append('`').append(part.text()).append('`');
                default -> page.append(escaped(part.text()));
            }
        }
        return page.toString();
    }

    private static String escaped(String text) {
        return text.replace("\\", "\\\\").replace("*", "\\*").replace("_", "\\_").replace("`", "\\`").replace("<", "\\<").replace("[", "\\[");
    }
}
