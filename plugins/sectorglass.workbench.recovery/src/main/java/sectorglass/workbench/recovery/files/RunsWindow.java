package sectorglass.workbench.recovery.files;

import java.util.List;
import java.util.function.Consumer;

import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.FillLayout;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.TableColumn;
import org.eclipse.swt.widgets.TableItem;

import sectorglass.disk.Extent;
import sectorglass.image.ByteRange;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.recovery.Words;

/** The runs of a file in a window of their own: byte of the file, sectors, kind, what was not read. A chosen run is shown in Sectors. */
final class RunsWindow {
    private static final String[] COLUMNS = {"byte", "length", "lba", "sectors", "kind", "unread"};
    private static final int[] WIDTHS = {130, 120, 130, 90, 130, 110};

    private final Shell shell;
    private final Table table;
    private final List<Extent> extents;
    private final SectorImage image;

    RunsWindow(Shell parent, String name, List<Extent> extents, SectorImage image, Consumer<ByteRange> chosen) {
        this.extents = extents;
        this.image = image;
        shell = new Shell(parent, SWT.DIALOG_TRIM | SWT.RESIZE | SWT.MODELESS);
        shell.setText(Words.of("runs.title", name, Numbers.grouped(extents.size())));
        shell.setLayout(new FillLayout());
        table = new Table(shell, SWT.VIRTUAL | SWT.FULL_SELECTION | SWT.BORDER);
        table.setHeaderVisible(true);
        for (int i = 0; i < COLUMNS.length; i++) {
            TableColumn column = new TableColumn(table, i == 4 ? SWT.LEFT : SWT.RIGHT);
            column.setText(Words.of("runs." + COLUMNS[i]));
            column.setWidth(WIDTHS[i]);
        }
        table.addListener(SWT.SetData, this::fill);
        table.addListener(SWT.Selection, event -> {
            Extent extent = extents.get(table.getSelectionIndex());
            if (extent.placed()) {
                chosen.accept(new ByteRange(extent.imageByte(), extent.stored()));
            }
        });
        table.setItemCount(extents.size());
        shell.setSize(760, 320);
    }

    private void fill(Event event) {
        Extent extent = extents.get(event.index);
        TableItem item = (TableItem) event.item;
        String lba = "";
        String sectors = "";
        String unread = "";
        if (extent.placed()) {
            SectorRange range = extent.sectors(image.sectorSize());
            lba = Numbers.grouped(range.first());
            sectors = Numbers.grouped(range.count());
            long missing = SectorRanges.of(range).minus(image.inState(ReadState.READ, range)).count();
            unread = missing == 0 ? "" : Numbers.grouped(missing);
        }
        item.setText(new String[] {Numbers.grouped(extent.offset()), Numbers.grouped(extent.length()), lba, sectors,
            Words.of("runs.kind." + extent.kind().name().toLowerCase(java.util.Locale.ROOT)), unread});
    }

    void open() {
        shell.open();
        table.setFocus();
    }
}
