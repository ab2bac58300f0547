package sectorglass.workbench.recovery;

import java.util.List;

import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.ui.PlatformUI;

/** A result in a window of its own: a few sentences, and lines that lead to their place in Sectors. Escape closes it. */
public final class LineWindow {
    private final Shell shell;

    /**
     * A line.
     *
     * @param lba where it leads, or -1
     * @param texts one per column
     */
    public record Line(long lba, String... texts) { }

    /**
     * Builds the window; {@link #open} shows it.
     *
     * @param right how many of the columns hold numbers, from the first
     */
    public LineWindow(Shell parent, String title, String sentences, String[] columns, int[] widths, int right, List<Line> lines) {
        shell = new Shell(parent == null || parent.isDisposed() ? window() : parent, SWT.DIALOG_TRIM | SWT.RESIZE | SWT.MODELESS);
        shell.setText(title);
        GridLayout grid = new GridLayout();
        grid.marginWidth = 8;
        grid.marginHeight = 8;
        shell.setLayout(grid);
        Label sum = new Label(shell, SWT.WRAP);
        sum.setText(sentences.replace("&", "&&"));
        GridData wide = new GridData(SWT.FILL, SWT.BEGINNING, true, false);
        wide.widthHint = 700;
        sum.setLayoutData(wide);
        if (!lines.isEmpty()) {
            new RangeTable(shell, columns, widths, right).show(lines.size(), i -> lines.get(i).texts(), i -> lines.get(i).lba());
        }
        shell.addListener(SWT.Traverse, event -> {
            if (event.detail == SWT.TRAVERSE_ESCAPE) {
                shell.close();
            }
        });
        shell.setSize(960, lines.isEmpty() ? 140 : 420);
    }

    /** What was in front when the work began may be gone by now. */
    private static Shell window() {
        return PlatformUI.getWorkbench().getWorkbenchWindows()[0].getShell();
    }

    /** Shows it. */
    public void open() {
        shell.open();
    }
}
