package sectorglass.workbench.learning.lesson;

import java.util.List;
import java.util.Locale;

import org.eclipse.jface.resource.JFaceResources;
import org.eclipse.swt.SWT;
import org.eclipse.swt.accessibility.AccessibleAdapter;
import org.eclipse.swt.accessibility.AccessibleEvent;
import org.eclipse.swt.custom.ScrolledComposite;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Listener;

import sectorglass.practice.lesson.Answer;
import sectorglass.practice.lesson.Lesson;
import sectorglass.practice.lesson.Task;
import sectorglass.practice.lesson.TextPart;
import sectorglass.workbench.learning.LearnTexts;
import sectorglass.workbench.look.Size;
import sectorglass.workbench.look.Tone;

/** A step of a lesson: its text, where it is answered, what was said to the answer, and the way on. */
final class StepPage implements PlayListener {
    /** Wrong answers after which the right one may be seen. */
    private static final int PATIENCE = 2;
    /** Pixels below which there is no room for text: the page is being built. */
    private static final int NARROWEST = 60;

    private final Composite page;
    private final Shelf shelf;
    private final Play play;
    private final Label title;
    private final Label where;
    private final ScrolledComposite scrolled;
    private final Composite column;
    private final LessonText text;
    private final AnswerRow answer;
    private final LessonText verdict;
    private final Button solve;
    private final Button openDisk;
    private final Button previous;
    private final Button next;
    private boolean right;
    private int wrong;
    private boolean shown;

    StepPage(Composite parent, Shelf shelf, Runnable list) {
        this.shelf = shelf;
        page = new Composite(parent, SWT.NONE);
        page.setLayout(tight(1));
        Composite head = new Composite(page, SWT.NONE);
        GridLayout grid = new GridLayout(3, false);
        grid.marginWidth = 8;
        head.setLayout(grid);
        head.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        button(head, "lesson.list", list);
        title = new Label(head, SWT.WRAP);
        GridData wide = new GridData(SWT.FILL, SWT.CENTER, true, false);
        wide.widthHint = 120;
        title.setLayoutData(wide);
        where = new Label(head, SWT.NONE);
        scrolled = new ScrolledComposite(page, SWT.V_SCROLL);
        scrolled.setExpandHorizontal(true);
        scrolled.setExpandVertical(true);
        scrolled.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        column = new Composite(scrolled, SWT.NONE);
        column.setLayout(tight(1));
        Paper.of(column);
        Paper.of(scrolled);
        text = named(new LessonText(column, SWT.NONE), "lesson.text");
        answer = new AnswerRow(column, this::check);
        answer.control().setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        verdict = named(new LessonText(column, SWT.NONE), "lesson.verdict");
        openDisk = button(column, "lesson.disk", () -> play().openDisk());
        solve = button(column, "lesson.solve", () -> play().solve());
        for (Button button : new Button[] {openDisk, solve}) {
            GridData data = new GridData();
            data.horizontalIndent = 12;
            button.setLayoutData(data);
        }
        scrolled.setContent(column);
        scrolled.addListener(SWT.Resize, event -> fit());
        Composite foot = new Composite(page, SWT.NONE);
        GridLayout low = new GridLayout(2, true);
        low.marginWidth = 8;
        foot.setLayout(low);
        foot.setLayoutData(new GridData(SWT.END, SWT.CENTER, true, false));
        previous = button(foot, "lesson.previous", () -> go(-1));
        next = button(foot, "lesson.next", () -> go(1));
        for (Button button : new Button[] {previous, next}) {
            button.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        }
        size();
        Size.follow(page, this::size);
        play = new Play(shelf, this);
        Listener click = this::clicked;
        page.getDisplay().addFilter(SWT.MouseUp, click);
        page.addListener(SWT.Dispose, event -> {
            page.getDisplay().removeFilter(SWT.MouseUp, click);
            play.close();
        });
    }

    /** Where a byte is asked for, a click on one is the answer. */
    private void clicked(Event event) {
        if (event.button == 1 && shown && !right && play.lesson() != null && play.step().task() instanceof Task.ClickByte && page.isVisible()
                && "sectors".equals(event.widget.getData("sectorglass.part"))) {
            page.getDisplay().asyncExec(() -> {
                if (!page.isDisposed()) {
                    check();
                }
            });
        }
    }

    private static GridLayout tight(int columns) {
        GridLayout grid = new GridLayout(columns, false);
        grid.marginWidth = 0;
        grid.marginHeight = 0;
        grid.verticalSpacing = 2;
        return grid;
    }

    private static Button button(Composite parent, String key, Runnable action) {
        Button made = new Button(parent, SWT.PUSH);
        made.setText(LearnTexts.of(key));
        made.setToolTipText(LearnTexts.of(key + ".tip"));
        made.addListener(SWT.Selection, event -> action.run());
        return made;
    }

    private static LessonText named(LessonText made, String key) {
        made.control().setLayoutData(new GridData(SWT.FILL, SWT.BEGINNING, true, false));
        made.control().getAccessible().addAccessibleListener(new AccessibleAdapter() {
            @Override
            public void getName(AccessibleEvent event) {
                event.result = LearnTexts.of(key);
            }
        });
        return made;
    }

    private void size() {
        title.setFont(JFaceResources.getBannerFont());
        where.setFont(Size.words());
        for (Button button : new Button[] {solve, openDisk, previous, next}) {
            button.setFont(Size.words());
        }
        page.layout(true, true);
        fit();
    }

    Composite control() {
        return page;
    }

    /** Whether a step is on the page and can be answered. */
    boolean shown() {
        return shown;
    }

    Play play() {
        return play;
    }

    /** Opens a step. */
    void open(Lesson lesson, int step) {
        begin();
        play.open(lesson, step);
        head();
    }

    /** Comes back to a step that was open before. */
    void resume(Lesson lesson, int step) {
        begin();
        play.resume(lesson, step);
        head();
    }

    private void begin() {
        right = false;
        wrong = 0;
        shown = false;
    }

    private void head() {
        Lesson lesson = play.lesson();
        title.setText(lesson.title().in(Locale.getDefault()).replace("&", "&&"));
        where.setText(LearnTexts.of(shelf.progress().isDone(lesson, play.step()) ? "lesson.step.done" : "lesson.step", play.index() + 1,
                lesson.steps().size()));
        previous.setEnabled(play.index() > 0);
        page.layout(true, true);
        fit();
    }

    private void fit() {
        int width = scrolled.isDisposed() || column == null ? 0 : scrolled.getClientArea().width;
        if (width > NARROWEST) {
            column.layout(true, true);
            scrolled.setMinHeight(column.computeSize(width, SWT.DEFAULT).y);
        }
    }

    private static void show(Button button, boolean on) {
        button.setVisible(on);
        ((GridData) button.getLayoutData()).exclude = !on;
    }

    @Override
    public void waiting(String why, boolean offerDisk) {
        shown = false;
        text.clear();
        text.add(why, false, null);
        verdict.clear();
        answer.control().setVisible(false);
        ((GridData) answer.control().getLayoutData()).exclude = true;
        show(openDisk, offerDisk);
        show(solve, false);
        fit();
    }

    @Override
    public void shown(StepWords words) {
        begin();
        text.clear();
        verdict.clear();
        show(openDisk, false);
        show(solve, false);
        if (words.problem() != null) {
            text.add(LearnTexts.of("lesson.broken", words.problem()), false, Tone.WRONG);
        } else {
            text.add(words.text(), false);
            text.add(words.ask(), true);
        }
        StringBuilder ask = new StringBuilder();
        words.ask().forEach(part -> ask.append(part.text()));
        answer.show(play, ask.toString());
        head();
        scrolled.setOrigin(0, 0);
        shown = true;
        parts();
        if (page.isVisible() && inside(page.getDisplay().getFocusControl())) {
            focus();
        }
    }

    /** Brings the part to the front in which the step is answered. */
    private void parts() {
        Task task = play.step().task();
        Parts.front(task instanceof Task.ChooseFinding ? Parts.FINDINGS : Parts.FIELDS);
    }

    private boolean inside(Control focus) {
        for (Control at = focus; at != null; at = at.getParent()) {
            if (at == page) {
                return true;
            }
        }
        return false;
    }

    /** Gives the keyboard to where the step is answered. */
    void focus() {
        Control wanted = answer.focus() != null ? answer.focus() : !play.step().asks() || right ? next : text.control();
        wanted.setFocus();
    }

    /** Asks for judgement; where nothing is asked, or the answer was right, goes on. */
    void check() {
        if (!shown || !play.ready()) {
            return;
        }
        if (!play.step().asks() || right) {
            go(1);
            return;
        }
        Answer given = answer.answer();
        if (given == null) {
            said(false, List.of(new TextPart(TextPart.Kind.PLAIN, LearnTexts.of("answer.finding.none"), null)));
        } else {
            play.judge(given);
        }
    }

    @Override
    public void judged(boolean isRight, List<TextPart> explanation) {
        right = isRight;
        wrong += isRight ? 0 : 1;
        said(isRight, explanation);
        show(solve, !isRight && wrong >= PATIENCE);
        head();
        if (isRight && inside(page.getDisplay().getFocusControl())) {
            next.setFocus();
        }
    }

    private void said(boolean isRight, List<TextPart> explanation) {
        verdict.clear();
        verdict.add(LearnTexts.of(isRight ? "verdict.right" : "verdict.wrong"), true, isRight ? Tone.NAME : Tone.WRONG);
        verdict.add(explanation, false);
        fit();
        scrolled.showControl(verdict.control());
    }

    @Override
    public void solved(List<TextPart> solution) {
        verdict.clear();
        verdict.add(LearnTexts.of("verdict.solution"), true, null);
        verdict.add(solution, false);
        show(solve, false);
        fit();
    }

    @Override
    public void moved() {
        if (shown) {
            answer.moved();
        }
    }

    /** Goes some steps on or back; after the last step the list is shown. */
    void go(int steps) {
        if (play.lesson() == null) {
            return;
        }
        if (!play.go(play.index() + steps)) {
            if (steps > 0) {
                if (!play.step().asks() && play.ready()) {
                    shelf.done(play.lesson(), play.step());
                }
                finished();
            }
            return;
        }
        begin();
        head();
    }

    private void finished() {
        Lesson lesson = play.lesson();
        int left = lesson.steps().size() - shelf.progress().count(lesson);
        verdict.clear();
        verdict.add(LearnTexts.of(left == 0 ? "lesson.end" : "lesson.end.open", left), true, Tone.NAME);
        head();
    }
}
