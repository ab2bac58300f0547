package sectorglass.workbench.recovery;

import org.eclipse.core.commands.common.CommandException;
import org.eclipse.core.runtime.ILog;
import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.StackLayout;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.layout.RowLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Label;
import org.eclipse.ui.handlers.IHandlerService;
import org.eclipse.ui.part.ViewPart;

import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.DeskListener;
import sectorglass.workbench.opening.Bench;

/** A part that shows the desk; while no disk is open it says what it is for and offers to open one. */
public abstract class RecoverPart extends ViewPart implements DeskListener {
    private final StackLayout layout = new StackLayout();
    private Composite stack;
    private Composite empty;
    private Label sentence;
    private Composite content;

    @Override
    public final void createPartControl(Composite parent) {
        stack = new Composite(parent, SWT.NONE);
        stack.setLayout(layout);
        empty = new Composite(stack, SWT.NONE);
        GridLayout grid = new GridLayout(2, false);
        grid.marginWidth = 10;
        grid.marginHeight = 8;
        empty.setLayout(grid);
        sentence = new Label(empty, SWT.WRAP);
        GridData data = new GridData(SWT.FILL, SWT.BEGINNING, true, false, 2, 1);
        data.widthHint = 100;
        sentence.setLayoutData(data);
        button(empty, Words.of("empty.open"), () -> command("sectorglass.workbench.open"));
        button(empty, Words.of("empty.demo"), () -> command("sectorglass.workbench.recovery.demo"));
        content = new Composite(stack, SWT.NONE);
        GridLayout inner = new GridLayout();
        inner.marginWidth = 4;
        inner.marginHeight = 4;
        inner.verticalSpacing = 3;
        content.setLayout(inner);
        create(content);
        desk().add(this);
        diskChanged();
    }

    /** Builds the controls into a grid of one column. */
    protected abstract void create(Composite parent);

    /** The disk on the desk is another one, or its read states are; there is one. */
    protected abstract void opened();

    /** There is no disk on the desk any more. */
    protected abstract void closed();

    /** What the part is for. */
    protected abstract String purpose();

    /** Whether the part would give the answers of an exam away, and stays closed while one runs. */
    protected boolean tellsAnswers() {
        return false;
    }

    @Override
    public final void examChanged() {
        if (tellsAnswers()) {
            diskChanged();
        }
    }

    @Override
    public final void diskChanged() {
        boolean closed = tellsAnswers() && desk().exam().runs();
        boolean open = desk().open() != null && !closed;
        sentence.setText(closed ? Words.of("exam.closed") : purpose());
        layout.topControl = open ? content : empty;
        stack.layout();
        if (open) {
            opened();
        } else {
            closed();
        }
    }

    /** The desk. */
    protected static Desk desk() {
        return Bench.desk();
    }

    /** A push button in a row. */
    protected static Button button(Composite parent, String text, Runnable action) {
        Button made = new Button(parent, SWT.PUSH);
        made.setText(text);
        made.addListener(SWT.Selection, event -> action.run());
        return made;
    }

    /** A row of controls of their own size; one of them may grab what is left. */
    protected static Composite row(Composite parent, int columns) {
        Composite made = new Composite(parent, SWT.NONE);
        GridLayout grid = new GridLayout(columns, false);
        grid.marginHeight = 0;
        grid.marginWidth = 0;
        made.setLayout(grid);
        made.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        return made;
    }

    /** Push buttons side by side, in several rows where one is too short. */
    protected static Composite buttons(Composite parent) {
        Composite made = new Composite(parent, SWT.NONE);
        RowLayout row = new RowLayout(SWT.HORIZONTAL);
        row.marginTop = 0;
        row.marginBottom = 0;
        row.marginLeft = 0;
        row.spacing = 5;
        row.center = true;
        made.setLayout(row);
        made.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        return made;
    }

    private void command(String id) {
        try {
            getSite().getService(IHandlerService.class).executeCommand(id, null);
        } catch (CommandException e) {
            ILog.get().error("The command " + id + " cannot be run.", e);
        }
    }

    @Override
    public void setFocus() {
        stack.setFocus();
    }

    @Override
    public void dispose() {
        desk().remove(this);
        super.dispose();
    }
}
