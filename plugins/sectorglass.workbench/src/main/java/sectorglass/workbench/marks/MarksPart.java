package sectorglass.workbench.marks;

import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.SashForm;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.TableColumn;
import org.eclipse.swt.widgets.TableItem;
import org.eclipse.ui.part.ViewPart;

import sectorglass.image.ByteRange;
import sectorglass.image.SafeText;
import sectorglass.recovery.Job.Mark;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.DeskListener;
import sectorglass.workbench.opening.Bench;

/** The marks of the open image: a list that leads to their bytes, and a form in which the chosen one is named and described. */
public final class MarksPart extends ViewPart implements DeskListener {
    /** Id of the part. */
    public static final String ID = "sectorglass.workbench.marks";

    private final Desk desk = Bench.desk();
    private Table table;
    private MarkForm form;
    private Label told;
    private Button delete;
    private Button undo;
    private Button redo;
    private Button export;
    private Button add;

    @Override
    public void createPartControl(Composite parent) {
        GridLayout grid = new GridLayout();
        grid.marginHeight = 4;
        grid.marginWidth = 8;
        parent.setLayout(grid);
        Composite line = new Composite(parent, SWT.NONE);
        GridLayout row = new GridLayout(6, false);
        row.marginWidth = 0;
        row.marginHeight = 0;
        line.setLayout(row);
        line.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        add = button(line, "marks.add", () -> MarkActions.add(this));
        delete = button(line, "marks.delete", this::delete);
        undo = button(line, "marks.undo", desk.marks()::undo);
        redo = button(line, "marks.redo", desk.marks()::redo);
        export = button(line, "marks.export", () -> MarkActions.export(getSite().getShell(), desk));
        told = new Label(line, SWT.NONE);
        told.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        SashForm halves = new SashForm(parent, SWT.HORIZONTAL);
        halves.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        table = new Table(halves, SWT.SINGLE | SWT.FULL_SELECTION);
        table.setHeaderVisible(true);
        column("marks.name", 180);
        column("marks.where", 170);
        column("marks.length", 90);
        column("marks.note", 320);
        table.addListener(SWT.Selection, event -> chosen());
        table.addListener(SWT.DefaultSelection, event -> go());
        table.addListener(SWT.KeyDown, this::key);
        form = new MarkForm(halves, desk);
        halves.setWeights(65, 35);
        desk.add(this);
        marksChanged();
    }

    private static Button button(Composite line, String key, Runnable action) {
        Button made = new Button(line, SWT.PUSH);
        made.setText(Texts.of(key));
        made.addListener(SWT.Selection, event -> action.run());
        return made;
    }

    private void column(String key, int width) {
        TableColumn column = new TableColumn(table, SWT.NONE);
        column.setText(Texts.of(key));
        column.setWidth(width);
    }

    private void key(Event event) {
        if (event.keyCode == SWT.DEL) {
            delete();
        } else if (event.keyCode == SWT.F2) {
            form.edit();
        }
    }

    private Mark selected() {
        return table.getSelectionCount() == 0 ? null : (Mark) table.getSelection()[0].getData();
    }

    private void chosen() {
        form.show(selected());
        go();
        buttons();
    }

    private void go() {
        Mark mark = selected();
        ByteRange bytes = mark == null ? null : Marks.bytes(mark);
        if (bytes != null && desk.open() != null) {
            desk.goTo(bytes, Texts.of("by.mark", mark.name()));
        }
    }

    private void delete() {
        if (selected() != null) {
            desk.marks().remove(selected());
        }
    }

    /** Shows a mark and lets it be named. */
    void edit(Mark mark) {
        choose(mark);
        form.edit();
    }

    private void choose(Mark mark) {
        for (TableItem item : table.getItems()) {
            if (item.getData().equals(mark)) {
                table.setSelection(item);
                form.show(mark);
                return;
            }
        }
    }

    @Override
    public void diskChanged() {
        marksChanged();
    }

    @Override
    public void marksChanged() {
        int at = table.getSelectionIndex();
        Mark before = form.shown();
        // lines are used again: one may be under the mouse button at this moment
        int count = desk.marks().all().size();
        if (table.getItemCount() > count) {
            table.remove(count, table.getItemCount() - 1);
        }
        table.deselectAll();
        int size = desk.open() == null ? 512 : desk.open().image().sectorSize();
        for (int i = 0; i < count; i++) {
            Mark mark = desk.marks().all().get(i);
            TableItem item = i < table.getItemCount() ? table.getItem(i) : new TableItem(table, SWT.NONE);
            item.setData(mark);
            boolean place = Marks.bytes(mark) != null;
            item.setText(new String[] {SafeText.of(mark.name()), place ? Numbers.place(mark.firstByte(), size) : Texts.of("marks.noplace"),
                Numbers.grouped(mark.length()), mark.note() == null ? "" : SafeText.of(mark.note()).replace('\n', ' ')});
            if (mark.equals(before)) {
                table.setSelection(item);
            }
        }
        if (table.getSelectionCount() == 0 && at >= 0 && table.getItemCount() > 0) {
            table.setSelection(Math.min(at, table.getItemCount() - 1));
        }
        form.show(selected());
        buttons();
    }

    private void buttons() {
        boolean open = desk.open() != null;
        add.setEnabled(open);
        delete.setEnabled(selected() != null);
        undo.setEnabled(desk.marks().canUndo());
        redo.setEnabled(desk.marks().canRedo());
        export.setEnabled(!desk.marks().all().isEmpty());
        String trouble = desk.marks().trouble();
        told.setText(trouble != null ? trouble : Texts.of(!open ? "marks.closed" : desk.marks().all().isEmpty() ? "marks.empty" : "marks.kept"));
        told.setToolTipText(trouble);
        told.getParent().layout();
    }

    @Override
    public void setFocus() {
        table.setFocus();
    }

    @Override
    public void dispose() {
        desk.remove(this);
        super.dispose();
    }
}
