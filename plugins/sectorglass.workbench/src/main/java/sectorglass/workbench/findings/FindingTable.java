package sectorglass.workbench.findings;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

import org.eclipse.jface.resource.JFaceResources;
import org.eclipse.swt.SWT;
import org.eclipse.swt.dnd.Clipboard;
import org.eclipse.swt.dnd.TextTransfer;
import org.eclipse.swt.dnd.Transfer;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.TableColumn;
import org.eclipse.swt.widgets.TableItem;

import sectorglass.disk.Structure;
import sectorglass.image.ByteRange;
import sectorglass.image.SafeText;
import sectorglass.recovery.Job;
import sectorglass.verify.Finding;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.SignImages;
import sectorglass.workbench.look.Look;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.look.VirtualRows;
import sectorglass.workbench.model.OpenDisk;

/** The rows as a table that is filled where it is seen. A head is opened and closed with Enter, Space, the arrows or a double click. */
final class FindingTable {
    private static final String OPEN = "\u25BE ";
    /** Rows made at once; the toolkit makes each row when it is counted. */
    private static final int STEP = 5_000;
    private static final String CLOSED = "\u25B8 ";

    private final Table table;
    private final SignImages images = new SignImages();
    private final Map<ByteRange, String> names = new HashMap<>();
    private List<Row> rows = List.of();
    private OpenDisk disk;
    private Question question;

    /**
     * Builds the table.
     *
     * @param chosen hears which finding was chosen
     * @param turned hears which group is to be opened or closed
     * @param sorted hears which column was chosen to sort by
     */
    FindingTable(Composite parent, Consumer<Finding> chosen, Consumer<String> turned, Consumer<FindingColumn> sorted) {
        table = new Table(parent, SWT.VIRTUAL | SWT.MULTI | SWT.FULL_SELECTION);
        table.setHeaderVisible(true);
        GridData data = new GridData(SWT.FILL, SWT.FILL, true, true);
        data.heightHint = 60;
        table.setLayoutData(data);
        for (FindingColumn column : FindingColumn.values()) {
            TableColumn made = new TableColumn(table, SWT.NONE);
            made.setText(column.title());
            made.setMoveable(true);
            made.addListener(SWT.Selection, event -> sorted.accept(column));
            made.addListener(SWT.Move, event -> FindingsMemory.keepColumns(table));
        }
        FindingsMemory.columns(table);
        table.addListener(SWT.SetData, this::fill);
        table.addListener(SWT.Selection, event -> {
            int chosenIndex = event.item instanceof TableItem item ? table.indexOf(item) : table.getSelectionIndex();
            Row row = row(chosenIndex);
            if (row != null && row.finding() != null) {
                chosen.accept(row.finding());
            }
        });
        table.addListener(SWT.DefaultSelection, event -> turn(turned, null));
        table.addListener(SWT.KeyDown, event -> {
            if (event.keyCode == 'c' && event.stateMask == SWT.MOD1) {
                copy();
            } else if (event.keyCode == SWT.ARROW_RIGHT || event.keyCode == SWT.ARROW_LEFT) {
                turn(turned, event.keyCode == SWT.ARROW_RIGHT);
            } else if (event.keyCode == 'a' && event.stateMask == SWT.MOD1) {
                table.selectAll();
            }
        });
        table.addListener(SWT.MouseHover, event -> tip(event.x, event.y));
        table.addListener(SWT.Dispose, event -> images.dispose());
        Look.follow(table, table::clearAll);
    }

    Table control() {
        return table;
    }

    /** Shows other rows. The chosen finding stays chosen where it is still shown. */
    void show(List<Row> shown, OpenDisk of, Question asked, Finding selected) {
        if (disk != of) {
            names.clear();
        }
        table.setRedraw(false);
        VirtualRows.clear(table);
        rows = shown;
        disk = of;
        question = asked;
        table.setItemCount(Math.min(STEP, rows.size()));
        table.setSortColumn(table.getColumn(asked.order().ordinal()));
        table.setSortDirection(asked.backwards() ? SWT.DOWN : SWT.UP);
        for (int i = 0; selected != null && i < rows.size(); i++) {
            if (rows.get(i).finding() != null && rows.get(i).finding().id() == selected.id()) {
                table.setItemCount(Math.max(table.getItemCount(), i + 1));
                table.setSelection(i);
                break;
            }
        }
        table.setRedraw(true);
        more(shown);
    }

    /** Makes the rows that are still missing, some at a time, so that the window goes on meanwhile. */
    private void more(List<Row> of) {
        table.getDisplay().asyncExec(() -> {
            if (!table.isDisposed() && rows == of && table.getItemCount() < rows.size()) {
                table.setItemCount(Math.min(rows.size(), table.getItemCount() + STEP));
                more(of);
            }
        });
    }

    private Row row(int index) {
        return index >= 0 && index < rows.size() ? rows.get(index) : null;
    }

    private void fill(Event event) {
        if (event.index < 0 || event.index >= rows.size()) {
            return;
        }
        Row row = rows.get(event.index);
        TableItem item = (TableItem) event.item;
        FindingColumn[] columns = FindingColumn.values();
        String[] texts = new String[columns.length];
        for (FindingColumn column : columns) {
            texts[column.ordinal()] = row.finding() == null ? "" : text(column, row.finding());
        }
        if (row.head()) {
            String sign = question.closed().contains(row.key()) ? CLOSED : OPEN;
            texts[FindingColumn.WHAT.ordinal()] = sign + (row.finding() == null ? title(row) : texts[FindingColumn.WHAT.ordinal()])
                    + " (" + Texts.of(row.finding() == null ? "findings.in" : "findings.follow", Numbers.grouped(row.below())) + ")";
            if (row.finding() == null) {
                texts[FindingColumn.SEVERITY.ordinal()] = row.worst().word();
            }
            item.setFont(JFaceResources.getFontRegistry().getBold(JFaceResources.DEFAULT_FONT));
        } else if (row.depth() > 0) {
            texts[FindingColumn.WHAT.ordinal()] = "      " + texts[FindingColumn.WHAT.ordinal()];
        }
        item.setData(row.finding());
        item.setText(texts);
        item.setImage(FindingColumn.SEVERITY.ordinal(), images.of(row.worst()));
    }

    private String title(Row row) {
        ByteRange bytes = row.structure();
        if (bytes == null) {
            return row.key();
        }
        return names.computeIfAbsent(bytes, range -> {
            String place = Numbers.place(range.start(), disk.image().sectorSize());
            Optional<Structure> structure = range.start() >= disk.image().bytes() ? Optional.empty() : disk.disk().structureAt(range.start());
            return structure.map(found -> SafeText.of(found.name()) + ", " + place).orElse(place);
        });
    }

    /** @param open whether to open or to close; null: the other way */
    private void turn(Consumer<String> turned, Boolean open) {
        int index = table.getSelectionIndex();
        if (index >= 0 && index < rows.size() && rows.get(index).head()) {
            boolean closed = question.closed().contains(rows.get(index).key());
            if (open == null || open == closed) {
                turned.accept(rows.get(index).key());
                table.setSelection(index);
            }
        }
    }

    private String text(FindingColumn column, Finding finding) {
        return column.text(finding, disk.image().sectorSize(), question.accepted().has(finding));
    }

    /** The chosen findings; heads of groups that are none are left out. */
    List<Finding> chosen() {
        return IntStream.of(table.getSelectionIndices()).mapToObj(this::row).filter(row -> row != null && row.finding() != null).map(Row::finding).distinct().toList();
    }

    private void tip(int x, int y) {
        TableItem item = table.getItem(new org.eclipse.swt.graphics.Point(x, y));
        Row row = item == null ? null : row(table.indexOf(item));
        Job.Accepted by = row == null || row.finding() == null ? null : question.accepted().of(row.finding());
        table.setToolTipText(row == null || row.finding() == null ? null : SafeText.of(row.finding().what()) + "\n"
                + (by == null ? "" : Texts.of("finding.accepted") + ": " + AcceptedWords.of(by) + "\n") + SafeText.of(String.valueOf(row.finding().means())) + "\n" + SafeText.of(String.valueOf(row.finding().advice())));
    }

    /** Copies the chosen rows, or all where none is chosen, as a table: columns apart by tabs. */
    void copy() {
        int[] chosen = table.getSelectionIndices();
        String text = text(chosen.length == 0 ? IntStream.range(0, rows.size()).toArray() : chosen);
        if (!text.isEmpty()) {
            Clipboard clipboard = new Clipboard(table.getDisplay());
            clipboard.setContents(new Object[] {text}, new Transfer[] {TextTransfer.getInstance()});
            clipboard.dispose();
        }
    }

    private String text(int[] indices) {
        String lines = IntStream.of(indices).mapToObj(rows::get).filter(row -> row.finding() != null)
                .map(row -> IntStream.of(table.getColumnOrder())
                        .mapToObj(column -> text(FindingColumn.values()[column], row.finding()))
                        .collect(Collectors.joining("\t")))
                .collect(Collectors.joining("\n"));
        return lines.isEmpty() ? "" : IntStream.of(table.getColumnOrder()).mapToObj(column -> FindingColumn.values()[column].title())
                .collect(Collectors.joining("\t")) + "\n" + lines + "\n";
    }
}
