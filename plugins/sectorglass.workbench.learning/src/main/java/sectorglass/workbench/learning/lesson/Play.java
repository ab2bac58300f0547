package sectorglass.workbench.learning.lesson;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.Consumer;
import java.util.function.Supplier;

import org.eclipse.core.runtime.ICoreRunnable;
import org.eclipse.core.runtime.ILog;
import org.eclipse.core.runtime.jobs.Job;
import org.eclipse.swt.widgets.Display;

import sectorglass.image.OpenOptions;
import sectorglass.image.Overlay;
import sectorglass.practice.lesson.Answer;
import sectorglass.practice.lesson.Judgement;
import sectorglass.practice.lesson.Lesson;
import sectorglass.practice.lesson.LessonDisk;
import sectorglass.practice.lesson.LessonException;
import sectorglass.practice.lesson.LessonRun;
import sectorglass.practice.lesson.Step;
import sectorglass.practice.lesson.StepPlace;
import sectorglass.practice.lesson.TextPart;
import sectorglass.verify.Finding;
import sectorglass.verify.RuleBook;
import sectorglass.workbench.learning.LearnTexts;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.DeskListener;
import sectorglass.workbench.model.OpenDisk;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.opening.Opening;

/**
 * A lesson being played in the window: opens its disk, points at the place of a step, takes what the reader did on the desk for an answer.
 * For the thread of the window; the engine works on one thread beside it.
 */
final class Play implements DeskListener {
    private final Desk desk = Bench.desk();
    private final Display display = Display.getCurrent();
    private final Shelf shelf;
    private final PlayListener listener;
    private final Pointing pointing = new Pointing(desk);
    private final ExecutorService engine = Executors.newSingleThreadExecutor(task -> {
        Thread thread = new Thread(task, "sectorglass lesson");
        thread.setDaemon(true);
        return thread;
    });
    private Lesson lesson;
    private int index;
    private LessonRun run;
    private boolean opening;
    private Finding chosen;
    private int asked;

    Play(Shelf shelf, PlayListener listener) {
        this.shelf = shelf;
        this.listener = listener;
        desk.add(this);
    }

    /** Ends it. */
    void close() {
        desk.remove(this);
        pointing.leave();
        engine.shutdown();
    }

    /** The reader went back to the list: nothing is open, the disk stays. */
    void pause() {
        pointing.leave();
        lesson = null;
        run = null;
        Shelf.keep(null, 0);
    }

    Lesson lesson() {
        return lesson;
    }

    int index() {
        return index;
    }

    Step step() {
        return lesson.steps().get(index);
    }

    /** Opens a step of a lesson; the disk is opened where another one lies on the desk. */
    void open(Lesson wanted, int step) {
        if (lesson != wanted) {
            run = null;
        }
        lesson = wanted;
        index = Math.max(0, Math.min(step, wanted.steps().size() - 1));
        Shelf.keep(lesson, index);
        if (mine(desk.open()) && !(desk.open().image() instanceof Overlay)) {
            begin();
        } else {
            openDisk();
        }
    }

    /** Comes back to a step: its disk is opened, unless that would take another one off the desk; then the reader is asked. */
    void resume(Lesson wanted, int step) {
        boolean taken = desk.open() != null || Arrays.stream(Job.getJobManager().find(null)).anyMatch(Opening.class::isInstance);
        lesson = wanted;
        if (taken && !mine(desk.open())) {
            index = Math.max(0, Math.min(step, wanted.steps().size() - 1));
            listener.waiting(LearnTexts.of("lesson.away"), true);
        } else {
            open(wanted, step);
        }
    }

    /** Goes to another step of the lesson; false where there is none. */
    boolean go(int step) {
        if (step < 0 || step >= lesson.steps().size()) {
            return false;
        }
        if (!step().asks() && step > index && run != null) {
            shelf.done(lesson, step());
        }
        open(lesson, step);
        return true;
    }

    /** Makes the disk of the lesson and opens it. */
    void openDisk() {
        Lesson wanted = lesson;
        opening = true;
        run = null;
        pointing.leave();
        listener.waiting(LearnTexts.of("lesson.opening"), false);
        Job.create(LearnTexts.of("lesson.opening"), (ICoreRunnable) monitor -> {
            try {
                LessonDisk disk = DiskShelf.make(shelf.lessons(), wanted);
                display.asyncExec(() -> {
                    if (wanted == lesson) {
                        new Opening(disk.image(), OpenOptions.DEFAULT.withAlone(true).withReadMap(disk.readMap()), this::refused).unlisted().schedule();
                    }
                });
            } catch (java.io.IOException | LessonException e) {
                ILog.get().warn("The disk " + wanted.disk() + " could not be made.", e);
                display.asyncExec(() -> refused(e.getMessage()));
            }
        }).schedule();
    }

    private void refused(String why) {
        opening = false;
        listener.waiting(LearnTexts.of("lesson.refused", why), true);
    }

    private boolean mine(OpenDisk open) {
        Path path = open == null ? null : open.path();
        return lesson != null && path != null && path.toAbsolutePath().equals(DiskShelf.image(lesson).toAbsolutePath());
    }

    @Override
    public void diskChanged() {
        if (lesson == null) {
            return;
        }
        OpenDisk open = desk.open();
        if (!mine(open)) {
            run = null;
            if (!opening) {
                listener.waiting(LearnTexts.of("lesson.away"), true);
            }
        } else if (!(open.image() instanceof Overlay) && (run == null || run.disk().image() != open.image())) {
            opening = false;
            run = null;
            display.asyncExec(this::begin);
        } else {
            listener.moved();
        }
    }

    @Override
    public void caretMoved() {
        listener.moved();
    }

    @Override
    public void explained() {
        pointing.explained();
    }

    @Override
    public void findingChosen() {
        chosen = desk.finding();
        listener.moved();
    }

    private void begin() {
        OpenDisk open = desk.open();
        if (lesson == null || !mine(open) || open.image() instanceof Overlay) {
            return;
        }
        if (run == null) {
            run = new LessonRun(lesson, open.disk(), Bench.catalogue(), RuleBook.ofProviders(Locale.getDefault()));
        }
        chosen = null;
        LessonRun now = run;
        Step step = step();
        record Found(StepWords words, StepPlace place) { }
        work(() -> {
            try {
                return new Found(new StepWords(parts(now.text(step.text())), parts(now.text(step.ask())), null), now.place(step));
            } catch (LessonException e) {
                return new Found(new StepWords(List.of(), List.of(), e.getMessage()), null);
            }
        }, found -> {
            if (found.place() != null) {
                pointing.at(found.place(), LearnTexts.of("lesson.by", index + 1));
            }
            listener.shown(found.words());
        });
    }

    private List<TextPart> parts(String marked) {
        return shelf.lessons().glossary().parts(marked, Locale.getDefault());
    }

    /** The finding that was chosen since the step is shown, or null. */
    Finding chosen() {
        return chosen;
    }

    /** Whether the step can be answered: its disk lies on the desk. */
    boolean ready() {
        return run != null;
    }

    /** Judges an answer. */
    void judge(Answer answer) {
        LessonRun now = run;
        Step step = step();
        Lesson of = lesson;
        if (now == null) {
            return;
        }
        record Said(boolean right, List<TextPart> words) { }
        work(() -> {
            try {
                Judgement judgement = now.judge(step, answer);
                return new Said(judgement.right(), parts(judgement.explanation()));
            } catch (LessonException e) {
                return new Said(false, parts(e.getMessage()));
            }
        }, said -> {
            if (said.right()) {
                shelf.done(of, step);
            }
            listener.judged(said.right(), said.words());
        });
    }

    /** Asks for the right answer in words. */
    void solve() {
        LessonRun now = run;
        Step step = step();
        if (now != null) {
            work(() -> parts(now.solutionText(step)), listener::solved);
        }
    }

    /** Works on the engine's thread and hands the result over, unless something newer was asked for by then. */
    private <T> void work(Supplier<T> what, Consumer<T> then) {
        int number = ++asked;
        engine.execute(() -> {
            T result;
            try {
                result = what.get();
            } catch (RuntimeException e) {
                ILog.get().error("The lesson " + lesson.id() + " cannot be played.", e);
                return;
            }
            if (!display.isDisposed()) {
                display.asyncExec(() -> {
                    if (number == asked) {
                        then.accept(result);
                    }
                });
            }
        });
    }
}
