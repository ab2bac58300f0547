package sectorglass.workbench.learning.lesson;

import java.io.IOException;

import org.eclipse.core.runtime.ICoreRunnable;
import org.eclipse.core.runtime.ILog;
import org.eclipse.core.runtime.jobs.Job;
import org.eclipse.core.runtime.preferences.IEclipsePreferences.IPreferenceChangeListener;
import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.StackLayout;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Display;
import org.eclipse.ui.part.ViewPart;

import sectorglass.practice.lesson.Lesson;
import sectorglass.workbench.learning.LearnTexts;

/** The lessons: a list of them with the reader's progress, and the step that is open. */
public final class LessonsPart extends ViewPart {
    /** Id of the part. */
    public static final String ID = "sectorglass.workbench.learning.lessons";

    private final StackLayout layout = new StackLayout();
    private final IPreferenceChangeListener settings = event -> {
        if (Shelf.FOLDER.equals(event.getKey())) {
            Display.getDefault().asyncExec(this::load);
        }
    };
    private Composite stack;
    private LessonList list;
    private StepPage page;
    private Shelf shelf;

    @Override
    public void createPartControl(Composite parent) {
        stack = new Composite(parent, SWT.NONE);
        stack.setLayout(layout);
        stack.setData("sectorglass.part", "lessons");
        list = new LessonList(stack, this::open);
        layout.topControl = list.control();
        Shelf.node().addPreferenceChangeListener(settings);
        load();
    }

    /** Reads the lessons off the window's thread. */
    private void load() {
        if (stack.isDisposed()) {
            return;
        }
        Display display = stack.getDisplay();
        Job.create(LearnTexts.of("list.reading"), (ICoreRunnable) monitor -> {
            try {
                Shelf read = Shelf.read();
                display.asyncExec(() -> loaded(read));
            } catch (IOException e) {
                ILog.get().error("The progress of lessons cannot be read.", e);
            }
        }).schedule();
    }

    private void loaded(Shelf read) {
        if (stack.isDisposed()) {
            return;
        }
        shelf = read;
        if (page != null) {
            page.control().dispose();
            page = null;
        }
        list.show(shelf);
        Lesson kept = shelf.kept();
        if (kept != null) {
            top(paper().control());
            page.resume(kept, Shelf.keptStep());
        } else {
            top(list.control());
        }
    }

    /** The page of steps, made when it is wanted first. */
    private StepPage paper() {
        if (page == null) {
            page = new StepPage(stack, shelf, this::list);
        }
        return page;
    }

    private void top(Composite shown) {
        layout.topControl = shown;
        stack.layout();
    }

    /** Shows the list. */
    void list() {
        page.play().pause();
        list.show(shelf);
        top(list.control());
        list.focus();
    }

    /** Opens a lesson where the reader left it. */
    private void open(Lesson lesson) {
        top(paper().control());
        page.open(lesson, shelf.progress().next(lesson));
        page.focus();
    }

    /** The step that is open, or null while the list is shown. */
    StepPage page() {
        return page != null && layout.topControl == page.control() ? page : null;
    }

    @Override
    public void setFocus() {
        if (page() != null) {
            page.focus();
        } else {
            list.focus();
        }
    }

    @Override
    public void dispose() {
        Shelf.node().removePreferenceChangeListener(settings);
        super.dispose();
    }
}
