package sectorglass.workbench.commands;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

import org.eclipse.jface.dialogs.MessageDialog;
import org.eclipse.jface.dialogs.TitleAreaDialog;
import org.eclipse.swt.SWT;
import org.eclipse.swt.graphics.Point;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.FileDialog;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.TableColumn;
import org.eclipse.swt.widgets.TableItem;

import sectorglass.recovery.Job.FurtherDisk;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.OpenDisk;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.opening.Regrouping;

/** The further disks of the set that the open image belongs to: added, taken out, given a read map. */
public final class FurtherDisksDialog extends TitleAreaDialog {
    private static final int WIDEST = 820;

    private final Path folder;
    private final List<FurtherDisk> disks;
    private Table table;
    private Button map;
    private Button remove;

    FurtherDisksDialog(Shell shell, Path folder, List<FurtherDisk> disks) {
        super(shell);
        this.folder = folder;
        this.disks = new ArrayList<>(disks);
        setShellStyle(getShellStyle() | SWT.RESIZE);
    }

    /** Asks for the further disks of the set of the open image, and surveys it with them. */
    public static void ask() {
        OpenDisk open = Bench.desk().open();
        if (open == null || open.path() == null) {
            MessageDialog.openInformation(OpenImages.shell(), Texts.of("disks.title"), Texts.of("disks.none"));
            return;
        }
        FurtherDisksDialog dialog = new FurtherDisksDialog(OpenImages.shell(), open.path().toAbsolutePath().getParent(), Regrouping.named(open.path()));
        if (dialog.open() == OK) {
            take(open, dialog.disks);
        }
    }

    /** Surveys the open image with these further disks. */
    public static void take(OpenDisk open, List<FurtherDisk> disks) {
        new Regrouping(open, disks, sentence -> MessageDialog.openWarning(OpenImages.shell(), Texts.of("disks.title"), sentence)).schedule();
    }

    @Override
    protected void configureShell(Shell shell) {
        super.configureShell(shell);
        shell.setText(Texts.of("disks.title"));
    }

    /** Not as wide as the message in one line. */
    @Override
    protected Point getInitialSize() {
        Point size = super.getInitialSize();
        return new Point(Math.min(size.x, WIDEST), size.y);
    }

    @Override
    protected Control createDialogArea(Composite parent) {
        setTitle(Texts.of("disks.title"));
        setMessage(Texts.of("disks.message"));
        Composite area = new Composite((Composite) super.createDialogArea(parent), SWT.NONE);
        area.setLayout(new GridLayout(2, false));
        area.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        table = new Table(area, SWT.BORDER | SWT.MULTI | SWT.FULL_SELECTION);
        GridData tall = new GridData(SWT.FILL, SWT.FILL, true, true, 1, 4);
        tall.widthHint = 520;
        tall.heightHint = 160;
        table.setLayoutData(tall);
        table.setHeaderVisible(true);
        column("disks.file", 300);
        column("disks.readmap", 200);
        button(area, "disks.add", this::add);
        map = button(area, "disks.map", this::map);
        remove = button(area, "disks.remove", this::remove);
        table.addListener(SWT.Selection, event -> enable());
        fill();
        return area;
    }

    private void column(String key, int width) {
        TableColumn column = new TableColumn(table, SWT.NONE);
        column.setText(Texts.of(key));
        column.setWidth(width);
    }

    private static Button button(Composite area, String key, Runnable task) {
        Button button = new Button(area, SWT.PUSH);
        button.setText(Texts.of(key));
        button.setLayoutData(new GridData(SWT.FILL, SWT.BEGINNING, false, false));
        button.addListener(SWT.Selection, event -> task.run());
        return button;
    }

    private void fill() {
        table.removeAll();
        for (FurtherDisk disk : disks) {
            new TableItem(table, SWT.NONE).setText(new String[] {disk.file(), disk.readMap() == null ? "" : disk.readMap()});
        }
        enable();
    }

    private void enable() {
        map.setEnabled(table.getSelectionCount() == 1);
        remove.setEnabled(table.getSelectionCount() > 0);
    }

    private void add() {
        FileDialog dialog = new FileDialog(getShell(), SWT.OPEN | SWT.MULTI);
        dialog.setText(Texts.of("disks.add.title"));
        dialog.setFilterPath(folder.toString());
        if (dialog.open() != null) {
            for (String name : dialog.getFileNames()) {
                String file = shorter(Path.of(dialog.getFilterPath()).resolve(name));
                if (disks.stream().noneMatch(disk -> disk.file().equals(file))) {
                    disks.add(new FurtherDisk(file, null));
                }
            }
            fill();
        }
    }

    private void map() {
        int at = table.getSelectionIndex();
        FileDialog dialog = new FileDialog(getShell(), SWT.OPEN);
        dialog.setText(Texts.of("disks.map.title"));
        dialog.setFilterPath(folder.toString());
        String chosen = dialog.open();
        if (chosen != null) {
            disks.set(at, new FurtherDisk(disks.get(at).file(), shorter(Path.of(chosen))));
            fill();
            table.select(at);
            enable();
        }
    }

    private void remove() {
        int[] chosen = table.getSelectionIndices();
        for (int i = chosen.length - 1; i >= 0; i--) {
            disks.remove(chosen[i]);
        }
        fill();
    }

    /** The name alone where the file lies beside the image, so that the folder can be moved as a whole. */
    private String shorter(Path file) {
        return folder.equals(file.getParent()) ? String.valueOf(file.getFileName()) : file.toString();
    }
}
