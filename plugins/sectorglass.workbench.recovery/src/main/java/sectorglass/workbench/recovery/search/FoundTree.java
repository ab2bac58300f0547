package sectorglass.workbench.recovery.search;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Tree;
import org.eclipse.swt.widgets.TreeColumn;
import org.eclipse.swt.widgets.TreeItem;

import sectorglass.recovery.ContentLook;
import sectorglass.recovery.SearchResult;
import sectorglass.recovery.SearchTexts;
import sectorglass.workbench.recovery.Words;

/** Volumes with the structures they stand on, the structures that belong to none, and what the content looks like. */
final class FoundTree {
    private static final String[] COLUMNS = {"what", "lba", "sectors", "size", "sure", "state", "label"};
    private static final int[] WIDTHS = {250, 95, 90, 150, 55, 90, 140};
    private static final int RIGHT_FROM = 1;
    private static final int RIGHT_TO = 4;

    /** Where a line leads. */
    @FunctionalInterface
    interface Place {
        void at(long firstByte, long length);
    }

    private final Tree tree;
    private final FoundRows rows;
    private List<FoundRow> roots = List.of();

    FoundTree(Composite parent, SearchTexts texts, Consumer<String> explain, Place place) {
        rows = new FoundRows(texts);
        tree = new Tree(parent, SWT.VIRTUAL | SWT.FULL_SELECTION | SWT.BORDER);
        tree.setHeaderVisible(true);
        for (int i = 0; i < COLUMNS.length; i++) {
            TreeColumn column = new TreeColumn(tree, i >= RIGHT_FROM && i <= RIGHT_TO ? SWT.RIGHT : SWT.LEFT);
            column.setText(Words.of("search.column." + COLUMNS[i]));
            column.setWidth(WIDTHS[i]);
        }
        tree.addListener(SWT.SetData, this::fill);
        tree.addListener(SWT.Selection, event -> {
            FoundRow row = ((TreeItem) event.item).getData() instanceof FoundRow found ? found : null;
            if (row != null) {
                explain.accept(row.reasons());
                place.at(row.firstByte(), row.length());
            }
        });
    }

    Control control() {
        return tree;
    }

    /** Shows a result and a look at the content; either may be null. */
    void show(SearchResult result, ContentLook look, int sectorSize) {
        List<FoundRow> all = new ArrayList<>();
        if (result != null) {
            all.addAll(rows.volumes(result));
        }
        if (look != null) {
            all.addAll(rows.content(look, sectorSize));
        }
        roots = all;
        tree.removeAll();
        tree.setItemCount(roots.size());
        if (!roots.isEmpty()) {
            tree.setTopItem(tree.getItem(0));
        }
    }

    private void fill(Event event) {
        TreeItem item = (TreeItem) event.item;
        TreeItem parent = item.getParentItem();
        List<FoundRow> among = parent == null ? roots : ((FoundRow) parent.getData()).children();
        if (event.index < among.size()) {
            FoundRow row = among.get(event.index);
            item.setData(row);
            item.setText(row.cells());
            item.setItemCount(row.children().size());
        }
    }
}
