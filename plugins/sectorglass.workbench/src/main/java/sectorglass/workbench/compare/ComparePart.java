package sectorglass.workbench.compare;

import java.util.OptionalLong;
import java.util.function.Function;

import org.eclipse.core.runtime.IProgressMonitor;
import org.eclipse.core.runtime.IStatus;
import org.eclipse.core.runtime.Status;
import org.eclipse.core.runtime.jobs.Job;
import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.Label;
import org.eclipse.ui.part.ViewPart;

import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.recovery.Differences;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.DeskListener;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.opening.JobProgress;

/** Two stretches of bytes side by side, what differs marked; leads from difference to difference. */
public final class ComparePart extends ViewPart implements DeskListener {
    /** Id of the part. */
    public static final String ID = "sectorglass.workbench.compare";
    /** Bytes whose differences are counted at once. */
    private static final long COUNTED = 64L << 20;

    private final Desk desk = Bench.desk();
    private TwinCanvas canvas;
    private Label told;
    private Label values;
    private Button[] buttons;
    private Job running;
    /** An image opened for the comparison alone, or null. */
    private SectorImage own;
    private String counted = "";

    @Override
    public void createPartControl(Composite parent) {
        GridLayout grid = new GridLayout();
        grid.marginHeight = 4;
        grid.marginWidth = 8;
        grid.verticalSpacing = 3;
        parent.setLayout(grid);
        Composite line = new Composite(parent, SWT.NONE);
        GridLayout row = new GridLayout(8, false);
        row.marginWidth = 0;
        row.marginHeight = 0;
        line.setLayout(row);
        line.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        button(line, "compare.backup", () -> CompareActions.backup(this));
        button(line, "compare.place", () -> CompareActions.place(this));
        button(line, "compare.image", () -> CompareActions.image(this));
        buttons = new Button[] {button(line, "compare.previous", this::previous), button(line, "compare.next", this::next),
            button(line, "compare.go", this::goThere), button(line, "find.stop", this::stop)};
        told = new Label(line, SWT.NONE);
        told.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        canvas = new TwinCanvas(parent);
        canvas.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        canvas.onMove(this::caret);
        canvas.addListener(SWT.KeyDown, event -> {
            if (event.keyCode == SWT.CR || event.keyCode == SWT.KEYPAD_CR) {
                goThere();
            }
        });
        values = new Label(parent, SWT.NONE);
        values.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        desk.add(this);
        enable();
    }

    private static Button button(Composite line, String key, Runnable action) {
        Button made = new Button(line, SWT.PUSH);
        made.setText(Texts.of(key));
        made.addListener(SWT.Selection, event -> action.run());
        return made;
    }

    /**
     * Shows a pair.
     *
     * @param opened an image that was opened for it and is closed with it, or null
     * @param at offset the caret shall stand at
     */
    void show(Pair pair, SectorImage opened, long at) {
        stop();
        SectorImage former = own;
        own = opened;
        canvas.show(pair);
        if (former != null && former != opened) {
            close(former);
        }
        counted = "";
        enable();
        if (pair == null) {
            return;
        }
        canvas.caret(at);
        canvas.setFocus();
        String cut = pair.cut() ? Texts.of("compare.cut") + " " : "";
        told.setText(cut);
        if (pair.length() <= COUNTED) {
            work("compare.counting", progress -> {
                Differences.Count count = pair.differences().count(progress);
                return () -> counted = cut + Texts.of(count.different() == 0 ? "compare.same" : "compare.count", Numbers.grouped(count.different()),
                        Numbers.grouped(count.runs())) + (count.unknown() == 0 ? "" : " " + Texts.of("compare.unknown", Numbers.grouped(count.unknown())));
            });
        }
    }

    /** Says why nothing is shown. */
    void tell(String sentence) {
        told.setText(sentence);
        told.setToolTipText(sentence);
    }

    private static void close(SectorImage image) {
        Thread closing = new Thread(image::close, "sectorglass closing");
        closing.setDaemon(true);
        closing.start();
    }

    private void enable() {
        for (Button button : buttons) {
            button.setEnabled(canvas.pair() != null && canvas.pair().length() > 0);
        }
    }

    /** Goes to the next difference. */
    void next() {
        seek("compare.none.after", Differences::next);
    }

    /** Goes to the difference before. */
    void previous() {
        seek("compare.none.before", Differences::previous);
    }

    /** A way to look for a difference. */
    private interface Way {
        OptionalLong find(Differences differences, long from, Progress progress);
    }

    private void seek(String none, Way way) {
        Pair pair = canvas.pair();
        if (pair == null || pair.length() == 0) {
            return;
        }
        long from = canvas.caret();
        Differences differences = pair.differences();
        work("compare.seeking", progress -> {
            OptionalLong found = way.find(differences, from, progress);
            return () -> {
                if (found.isPresent()) {
                    canvas.caret(found.getAsLong());
                    told.setText(counted);
                } else {
                    told.setText(Texts.of(none));
                }
            };
        });
    }

    private void work(String key, Function<Progress, Runnable> what) {
        stop();
        Pair of = canvas.pair();
        Display display = canvas.getDisplay();
        told.setText(Texts.of(key));
        running = new Job(Texts.of(key)) {
            @Override
            protected IStatus run(IProgressMonitor monitor) {
                monitor.beginTask(getName(), IProgressMonitor.UNKNOWN);
                try {
                    Runnable shown = what.apply(new JobProgress(monitor));
                    display.asyncExec(() -> {
                        if (!canvas.isDisposed() && canvas.pair() == of) {
                            told.setText("");
                            shown.run();
                            told.setText(told.getText().isEmpty() ? counted : told.getText());
                        }
                    });
                    return Status.OK_STATUS;
                } catch (Progress.Stopped e) {
                    return Status.CANCEL_STATUS;
                }
            }
        };
        running.schedule();
    }

    private void stop() {
        if (running != null) {
            running.cancel();
            running = null;
        }
    }

    /** Goes to the left byte, or to the right one where only that lies on the desk, in Sectors. */
    private void goThere() {
        Pair pair = canvas.pair();
        if (pair != null && desk.open() != null && pair.left().image() == desk.open().image()) {
            desk.goTo(pair.left().start() + canvas.caret(), Texts.of("by.compare"));
        }
    }

    private void caret() {
        Pair pair = canvas.pair();
        String text = CompareText.caret(pair, canvas.twin(canvas.caret(), 1), canvas.caret());
        values.setText(text);
        if (desk.open() != null && pair.left().image() == desk.open().image()) {
            long at = canvas.caret();
            desk.explain(pair.left().start() + at, explained -> {
                if (!values.isDisposed() && canvas.pair() == pair && canvas.caret() == at && explained != null) {
                    values.setText(text + CompareText.field(explained, pair.left().start() + at));
                }
            });
        }
    }

    @Override
    public void diskChanged() {
        if (canvas.pair() != null && (desk.open() == null || canvas.pair().left().image() != desk.open().image())) {
            show(null, null, 0);
            told.setText("");
            values.setText("");
        }
    }

    @Override
    public void setFocus() {
        canvas.setFocus();
    }

    @Override
    public void dispose() {
        stop();
        desk.remove(this);
        if (own != null) {
            close(own);
        }
        super.dispose();
    }
}
