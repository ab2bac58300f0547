package sectorglass.workbench.recovery;

import java.util.function.IntFunction;
import java.util.function.IntToLongFunction;

import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.TableColumn;
import org.eclipse.swt.widgets.TableItem;

import sectorglass.workbench.look.VirtualRows;
import sectorglass.workbench.opening.Bench;

/** A virtual table of sector ranges; choosing a line moves the caret to its first sector. */
public final class RangeTable {
    private static final int MOST = 200_000;

    private final Table table;
    private IntFunction<String[]> texts = index -> new String[0];
    private IntToLongFunction lba = index -> -1;

    /**
     * Builds the table.
     *
     * @param columns their names
     * @param right which of them hold numbers, from the first
     */
    public RangeTable(Composite parent, String[] columns, int[] widths, int right) {
        table = new Table(parent, SWT.VIRTUAL | SWT.FULL_SELECTION | SWT.BORDER);
        table.setHeaderVisible(true);
        GridData data = new GridData(SWT.FILL, SWT.FILL, true, true);
        data.heightHint = 100;
        table.setLayoutData(data);
        for (int i = 0; i < columns.length; i++) {
            TableColumn column = new TableColumn(table, i < right ? SWT.RIGHT : SWT.LEFT);
            column.setText(columns[i]);
            column.setWidth(widths[i]);
        }
        table.addListener(SWT.SetData, event -> ((TableItem) event.item).setText(texts.apply(event.index)));
        table.addListener(SWT.Selection, event -> {
            long first = lba.applyAsLong(table.getSelectionIndex());
            if (first >= 0 && Bench.desk().open() != null) {
                Bench.desk().goTo(first * Bench.desk().open().image().sectorSize(), "LBA " + first);
            }
        });
    }

    /** Shows lines; of very many the first ones. Gives how many are left out. */
    public int show(int count, IntFunction<String[]> line, IntToLongFunction firstLba) {
        texts = line;
        lba = firstLba;
        VirtualRows.clear(table);
        table.setItemCount(Math.min(count, MOST));
        return Math.max(0, count - MOST);
    }

    /** Shows nothing. */
    public void clear() {
        VirtualRows.clear(table);
    }
}
