/**
 * Lessons as data, their disks, and the judge of answers; no window.
 *
 * <p>How a window plays a lesson:
 * <pre>
 * Lessons lessons = Lessons.ofProviders(teachersFolderOrNull);      // lessons.problems() tells mistakes in files
 * LessonDisk made = lessons.disk(lesson, folder);                   // not on the UI thread; made.image(), made.readMap() are opened as usual
 * LessonRun run = new LessonRun(lesson, disk, catalogue, RuleBook.ofProviders(locale));   // disk: as the workbench surveyed it
 * StepPlace place = run.place(step);                                // bytes, structure and field to show
 * List&lt;TextPart&gt; text = lessons.glossary().parts(run.text(step.text()), locale);
 * Judgement said = run.judge(step, new Answer.OnByte(caret));       // for step.asks(); else Answer.Read
 * LessonProgress progress = LessonProgress.load(LessonProgress.usualFile());
 * if (said.right()) progress.done(lesson, step);
 * </pre>
 *
 * <p>Which answer belongs to which task: {@link sectorglass.practice.lesson.Task}. Findings to choose from are
 * {@link sectorglass.practice.lesson.LessonRun#findings}; changes by hand are given as they stand over the image, recomputed checksums
 * included. {@link sectorglass.practice.lesson.LessonRun#solution} gives a right answer (a button that shows it, a robot that plays).
 *
 * <p>The language is that of the {@code RuleBook}. The format of the files is described in docs/lessons-format.md. A pack of lessons of
 * another bundle is a provider of {@link sectorglass.practice.lesson.LessonPack}.
 */
@Export
@Version("0.1.0")
package sectorglass.practice.lesson;

import org.osgi.annotation.bundle.Export;
import org.osgi.annotation.versioning.Version;
