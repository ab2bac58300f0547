package sectorglass.workbench.chunks;

import java.io.File;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;

import org.eclipse.jface.dialogs.IDialogConstants;
import org.eclipse.jface.dialogs.IMessageProvider;
import org.eclipse.jface.dialogs.InputDialog;
import org.eclipse.jface.dialogs.MessageDialog;
import org.eclipse.jface.dialogs.TitleAreaDialog;
import org.eclipse.swt.SWT;
import org.eclipse.swt.graphics.Point;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.FileDialog;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.TableColumn;
import org.eclipse.swt.widgets.TableItem;

import sectorglass.image.ImagePart;
import sectorglass.image.OpenImage;
import sectorglass.image.PartList;
import sectorglass.image.PartOrder;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.OpenDisk;

/** The parts of the open image: where each stands, what proves that, and another order. */
public final class PartsDialog extends TitleAreaDialog {
    private static final Point SIZE = new Point(1100, 520);
    private static final int[] WIDTHS = {40, 150, 110, 175, 115, 420};
    private static final String[] COLUMNS = {"number", "file", "bytes", "begin", "place", "why"};
    private static final long MOST_BYTES = 1L << 60;

    private final OpenDisk open;
    private final OpenImage image;
    private final PartRows rows;
    private Table table;
    private Label whole;
    private Button up;
    private Button down;
    private Button remove;
    private Button spokenFor;
    private boolean byNumber;

    /** For an open disk whose image is an {@link OpenImage}. */
    public PartsDialog(Shell shell, OpenDisk open) {
        super(shell);
        this.open = open;
        this.image = (OpenImage) open.image();
        this.rows = new PartRows(image.parts(), image.sectorSize());
        setShellStyle(getShellStyle() | SWT.RESIZE | SWT.MAX);
    }

    /** Asks for the order of the parts of the open image, and opens it in that order. */
    public static void ask(Shell shell, OpenDisk open) {
        if (open == null || open.path() == null || !(open.image() instanceof OpenImage)) {
            MessageDialog.openInformation(shell, Texts.of("parts.title"), Texts.of("parts.none"));
            return;
        }
        PartsDialog dialog = new PartsDialog(shell, open);
        if (dialog.open() == OK) {
            Reordering.start(open, dialog.byNumber ? List.of() : dialog.rows.laid(),
                    why -> MessageDialog.openError(shell, Texts.of("parts.title"), why));
        }
    }

    @Override
    protected void configureShell(Shell shell) {
        super.configureShell(shell);
        shell.setText(Texts.of("parts.title"));
    }

    @Override
    protected Point getInitialSize() {
        return SIZE;
    }

    @Override
    protected Control createDialogArea(Composite parent) {
        setTitle(Texts.of("parts.title"));
        setMessage(Texts.of("parts.looking"));
        Composite area = new Composite((Composite) super.createDialogArea(parent), SWT.NONE);
        area.setLayout(new GridLayout(2, false));
        area.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        table = new Table(area, SWT.BORDER | SWT.SINGLE | SWT.FULL_SELECTION);
        GridData tall = new GridData(SWT.FILL, SWT.FILL, true, true, 1, 8);
        tall.heightHint = 260;
        tall.widthHint = 600;
        table.setLayoutData(tall);
        table.setHeaderVisible(true);
        for (int i = 0; i < COLUMNS.length; i++) {
            TableColumn column = new TableColumn(table, i == 0 || i == 2 ? SWT.RIGHT : SWT.LEFT);
            column.setText(Texts.of("parts." + COLUMNS[i]));
            column.setWidth(WIDTHS[i]);
        }
        up = button(area, "parts.up", () -> move(-1));
        down = button(area, "parts.down", () -> move(1));
        button(area, "parts.add", this::add);
        button(area, "parts.gap", this::gap);
        remove = button(area, "parts.remove", this::remove);
        spokenFor = button(area, "parts.proposed", this::asSpokenFor);
        button(area, "parts.numbers", this::numbers);
        button(area, "parts.export", this::export);
        whole = new Label(area, SWT.WRAP);
        GridData lines = new GridData(SWT.FILL, SWT.BEGINNING, true, false, 2, 1);
        lines.heightHint = 2 * whole.computeSize(SWT.DEFAULT, SWT.DEFAULT).y;
        lines.widthHint = 600;
        whole.setLayoutData(lines);
        table.addListener(SWT.Selection, event -> enable());
        table.addListener(SWT.KeyDown, this::key);
        fill(0);
        Reordering.judge(open, this::judged, this::setErrorMessage);
        return area;
    }

    private static Button button(Composite area, String key, Runnable task) {
        Button button = new Button(area, SWT.PUSH);
        button.setText(Texts.of(key));
        button.setToolTipText(Texts.of(key + ".tip"));
        button.setLayoutData(new GridData(SWT.FILL, SWT.BEGINNING, false, false));
        button.addListener(SWT.Selection, event -> task.run());
        return button;
    }

    /** What structures say; null where they cannot be asked. */
    private void judged(PartOrder order) {
        if (table.isDisposed()) {
            return;
        }
        rows.judged(order);
        setMessage(Texts.of(order == null ? "parts.unasked" : order.wrong() ? "parts.wrong" : "parts.message"),
                order != null && order.wrong() ? IMessageProvider.WARNING : IMessageProvider.NONE);
        fill(table.getSelectionIndex());
    }

    private void fill(int chosen) {
        table.setRedraw(false);
        table.removeAll();
        for (int i = 0; i < rows.size(); i++) {
            PartRows.Standing standing = rows.standing(i);
            new TableItem(table, SWT.NONE).setText(new String[] {Integer.toString(i + 1), rows.file(i), rows.size(i), rows.begin(i),
                (standing == PartRows.Standing.ELSEWHERE ? "\u25C6 " : "") + Texts.of("parts.standing." + standing.name().toLowerCase(java.util.Locale.ROOT)), rows.why(i)});
        }
        table.setRedraw(true);
        table.select(Math.max(0, Math.min(chosen, rows.size() - 1)));
        table.showSelection();
        enable();
    }

    private void enable() {
        int chosen = table.getSelectionIndex();
        up.setEnabled(chosen > 0);
        down.setEnabled(chosen >= 0 && chosen + 1 < rows.size());
        remove.setEnabled(chosen >= 0 && rows.size() > 1);
        spokenFor.setEnabled(rows.spokenFor());
        whole.setText(chosen < 0 ? "" : Texts.of("parts.chosen", chosen + 1, rows.file(chosen), rows.why(chosen)));
        Button ok = getButton(IDialogConstants.OK_ID);
        if (ok != null) {
            ok.setEnabled(rows.changed(image.parts().size()));
        }
    }

    /** Alt+Up and Alt+Down move a part, Delete takes it out, Insert puts a missing one before it. */
    private void key(Event event) {
        boolean moves = event.stateMask == SWT.ALT && (event.keyCode == SWT.ARROW_UP || event.keyCode == SWT.ARROW_DOWN);
        if (moves) {
            move(event.keyCode == SWT.ARROW_UP ? -1 : 1);
        } else if (event.keyCode == SWT.DEL && remove.isEnabled()) {
            remove();
        } else if (event.keyCode == SWT.INSERT) {
            gap();
        } else {
            return;
        }
        event.doit = false;
    }

    private void move(int by) {
        int chosen = table.getSelectionIndex();
        if (chosen >= 0 && rows.exchange(chosen, chosen + by)) {
            fill(chosen + by);
        }
    }

    private void remove() {
        rows.remove(table.getSelectionIndex());
        fill(table.getSelectionIndex());
    }

    private void add() {
        FileDialog dialog = new FileDialog(getShell(), SWT.OPEN | SWT.MULTI);
        dialog.setText(Texts.of("parts.add.title"));
        dialog.setFilterPath(open.path().toAbsolutePath().getParent().toString());
        if (dialog.open() != null) {
            int at = table.getSelectionIndex() + 1;
            for (String name : dialog.getFileNames()) {
                File file = new File(dialog.getFilterPath(), name);
                if (file.length() > 0) {
                    rows.add(at++, file.toPath(), file.length());
                }
            }
            fill(at - 1);
        }
    }

    private void gap() {
        int at = Math.max(0, table.getSelectionIndex());
        InputDialog dialog = new InputDialog(getShell(), Texts.of("parts.gap.title"), Texts.of("parts.gap.ask", at + 1),
                Long.toString(image.parts().get(0).bytes()), text -> bytes(text) > 0 ? null : Texts.of("parts.gap.wrong"));
        if (dialog.open() == OK) {
            rows.add(at, null, bytes(dialog.getValue()));
            fill(at);
        }
    }

    private static long bytes(String text) {
        try {
            long bytes = Long.parseLong(text.strip());
            return bytes > MOST_BYTES ? -1 : bytes;
        } catch (NumberFormatException e) {
            return -1;
        }
    }

    private void asSpokenFor() {
        rows.asSpokenFor();
        fill(0);
    }

    private void numbers() {
        byNumber = true;
        super.okPressed();
    }

    private void export() {
        FileDialog dialog = new FileDialog(getShell(), SWT.SAVE);
        dialog.setText(Texts.of("parts.export.title"));
        dialog.setFilterPath(open.path().toAbsolutePath().getParent().toString());
        dialog.setFileName(open.path().getFileName() + ".parts.csv");
        String chosen = dialog.open();
        if (chosen != null) {
            export(Path.of(chosen));
        }
    }

    private void export(Path file) {
        List<ImagePart> laid = rows.laid();
        try {
            PartList.write(file, laid, image.sectorSize());
            setErrorMessage(null);
            setMessage(Texts.of("parts.exported", file), IMessageProvider.INFORMATION);
        } catch (IOException e) {
            setErrorMessage(Texts.of("parts.unexported", file, String.valueOf(e.getMessage())));
        }
    }

    @Override
    protected void createButtonsForButtonBar(Composite parent) {
        createButton(parent, IDialogConstants.OK_ID, Texts.of("parts.apply"), true).setEnabled(false);
        createButton(parent, IDialogConstants.CANCEL_ID, Texts.of("parts.cancel"), false);
    }
}
