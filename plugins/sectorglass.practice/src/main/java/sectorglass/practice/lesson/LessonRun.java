package sectorglass.practice.lesson;

import java.io.Closeable;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

import sectorglass.decode.FormatCatalogue;
import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.Structure;
import sectorglass.disk.Survey;
import sectorglass.image.ImageException;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.Texts;
import sectorglass.practice.lesson.judge.Bench;
import sectorglass.practice.lesson.judge.CorrectJudge;
import sectorglass.practice.lesson.judge.FindingJudge;
import sectorglass.practice.lesson.judge.NumberJudge;
import sectorglass.practice.lesson.judge.PlaceJudge;
import sectorglass.practice.lesson.judge.TextJudge;
import sectorglass.practice.lesson.place.Expressions;
import sectorglass.practice.lesson.place.Filling;
import sectorglass.practice.lesson.place.Ground;
import sectorglass.practice.lesson.place.Spot;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;

/**
 * A lesson being played on its disk: finds places, fills texts, judges answers. Holds no state of the person; not safe for several
 * threads. Judging a correction runs all quick checks, a fraction of a second; the rest returns at once after the first call.
 */
public final class LessonRun implements Closeable {
    private final Lesson lesson;
    private final Disk disk;
    private final Bench bench;
    private final RuleBook book;
    private final SectorImage owned;
    private Findings findings;

    /**
     * Plays on a disk that is open already: the workbench's, without changes by hand over it.
     *
     * @param disk as surveyed
     * @param book the rules, in the language of the person
     */
    public LessonRun(Lesson lesson, Disk disk, FormatCatalogue catalogue, RuleBook book) {
        this(lesson, disk, catalogue, book, null);
    }

    private LessonRun(Lesson lesson, Disk disk, FormatCatalogue catalogue, RuleBook book, SectorImage owned) {
        this.lesson = lesson;
        this.disk = disk;
        this.book = book;
        this.owned = owned;
        bench = new Bench(new Ground(disk, catalogue), new Texts(LessonRun.class, book.locale()));
    }

    /**
     * Opens a lesson's disk and plays on it; to be closed.
     *
     * @throws ImageException if the image cannot be opened
     */
    public static LessonRun open(Lesson lesson, LessonDisk made, Locale locale) throws ImageException {
        OpenImage image = Images.open(made.image(), OpenOptions.DEFAULT.withAlone(true).withReadMap(made.readMap()).withLocale(locale));
        return new LessonRun(lesson, Survey.of(image, Progress.NONE), FormatCatalogue.ofProviders(), RuleBook.ofProviders(locale), image);
    }

    /** The lesson. */
    public Lesson lesson() {
        return lesson;
    }

    /** The disk it is played on. */
    public Disk disk() {
        return disk;
    }

    /**
     * A text in the language of the rules, with the disk's values put in; marks stay.
     *
     * @param words null gives an empty text
     * @throws LessonException where the disk lacks what the text asks for
     */
    public String text(Words words) {
        return bench.filled(words);
    }

    /**
     * The place that a step points at.
     *
     * @throws LessonException where the disk has no such place
     */
    public StepPlace place(Step step) {
        Spot spot = bench.spot(step.point());
        Structure structure = spot.structure();
        if (structure == null) {
            structure = disk.structureAt(spot.range().start()).orElse(null);
        }
        if (step.format() != null && (structure == null || !structure.format().equals(step.format()))) {
            structure = withFormat(step.format(), spot).orElse(structure);
        }
        return new StepPlace(spot.range(), structure, spot.field());
    }

    private Optional<Structure> withFormat(String format, Spot spot) {
        return disk.maps().stream().flatMap(found -> found.map().structures().stream())
                .filter(one -> one.format().equals(format) && one.range().contains(spot.range().start())).findFirst();
    }

    /** The findings that a step may ask for: failed and not checked, of the quick checks, folded as the window lists them. */
    public List<Finding> findings() {
        if (findings == null) {
            findings = Survey.ofProviders().verify(disk, Level.QUICK, book, Progress.NONE);
        }
        return findings.listed();
    }

    /**
     * Judges an answer. An answer of another kind than the step asks for is wrong and says what is asked.
     *
     * @throws LessonException where the disk lacks what the step asks for: a mistake of the lesson, never of the person
     */
    public Judgement judge(Step step, Answer answer) {
        Task task = step.task();
        if (task instanceof Task.ReadOn) {
            return new Judgement(true, "", null);
        }
        if (task instanceof Task.ClickByte click && answer instanceof Answer.OnByte at) {
            return new PlaceJudge(bench).judge(step, click, at);
        }
        if (task instanceof Task.SelectBytes select && answer instanceof Answer.Selected range) {
            return new PlaceJudge(bench).judge(step, select, range);
        }
        if (task instanceof Task.TypeNumber number && answer instanceof Answer.Typed typed) {
            return new NumberJudge(bench).judge(step, number, typed);
        }
        if (task instanceof Task.TypeText text && answer instanceof Answer.Typed typed) {
            return new TextJudge(bench).judge(step, text, typed);
        }
        if (task instanceof Task.ChooseFinding choose && answer instanceof Answer.Chosen chosen) {
            return new FindingJudge(bench, findings()).judge(step, choose, chosen);
        }
        if (task instanceof Task.CorrectField correct && answer instanceof Answer.Changed changed) {
            return new CorrectJudge(bench, book, lesson).judge(step, correct, changed);
        }
        return new Judgement(false, bench.texts().of("wrong.other-kind." + task.word()), "other-kind");
    }

    /**
     * A right answer, found on the disk.
     *
     * @throws LessonException where the disk lacks what the step asks for
     */
    public Answer solution(Step step) {
        Task task = step.task();
        if (task instanceof Task.ClickByte click) {
            return new Answer.OnByte(bench.spot(click.target()).range().start());
        }
        if (task instanceof Task.SelectBytes select) {
            return new Answer.Selected(bench.spot(select.target()).range());
        }
        if (task instanceof Task.TypeNumber number) {
            return new Answer.Typed(new NumberJudge(bench).solution(number));
        }
        if (task instanceof Task.TypeText text) {
            return new Answer.Typed(new TextJudge(bench).solution(text));
        }
        if (task instanceof Task.ChooseFinding choose) {
            Finding finding = new FindingJudge(bench, findings()).solution(choose);
            return new Answer.Chosen(finding.check(), finding.where().start());
        }
        if (task instanceof Task.CorrectField correct) {
            return new Answer.Changed(new CorrectJudge(bench, book, lesson).solution(correct));
        }
        return new Answer.Read();
    }

    /** The right answer in words, in the language of the rules: for showing it, and for the pages of answers. */
    public String solutionText(Step step) {
        Task task = step.task();
        Texts texts = bench.texts();
        int size = disk.image().sectorSize();
        if (task instanceof Task.ClickByte || task instanceof Task.SelectBytes) {
            Spot spot = bench.spot(task instanceof Task.ClickByte click ? click.target() : ((Task.SelectBytes) task).target());
            long first = spot.range().start();
            String field = spot.field() == null ? "" : " " + texts.of("solution.field", spot.field().label());
            return (spot.range().length() == 1 ? texts.of("solution.byte", Filling.grouped(first / size), Filling.grouped(first % size))
                    : texts.of("solution.bytes", Filling.grouped(first / size), Filling.grouped(first % size),
                            Filling.grouped(first % size + spot.range().length() - 1))) + field;
        }
        if (task instanceof Task.TypeNumber number) {
            String typed = new NumberJudge(bench).solution(number);
            long value = typed.startsWith("0x") ? Long.parseUnsignedLong(typed.substring(2), 16) : Long.parseLong(typed);
            return value < 10 ? Long.toString(value) : Filling.grouped(value) + " (" + Filling.hex(value) + ")";
        }
        if (task instanceof Task.TypeText text) {
            return new TextJudge(bench).solution(text);
        }
        if (task instanceof Task.ChooseFinding choose) {
            Finding finding = new FindingJudge(bench, findings()).solution(choose);
            return "`" + finding.check() + "`: " + finding.what();
        }
        if (task instanceof Task.CorrectField correct) {
            return correct.fields().stream().map(this::corrected).collect(Collectors.joining("; "));
        }
        return "";
    }

    private String corrected(Task.CorrectField.Wanted wanted) {
        Spot spot = bench.spot(wanted.target());
        int size = disk.image().sectorSize();
        String label = spot.field() == null ? wanted.target() : spot.field().label();
        String value = Expressions.value(wanted.answer()).in(bench.ground());
        return bench.texts().of("solution.correct", label, value.matches("[0-9]+") ? Filling.grouped(Long.parseUnsignedLong(value)) : value,
                Filling.grouped(spot.range().start() / size), Filling.grouped(spot.range().start() % size));
    }

    @Override
    public void close() {
        if (owned != null) {
            owned.close();
        }
    }
}
