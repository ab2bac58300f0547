package sectorglass.workbench.recovery.files;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.Tree;
import org.eclipse.swt.widgets.TreeColumn;
import org.eclipse.swt.widgets.TreeItem;

import sectorglass.disk.FileStamp;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.image.SafeText;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Sign;
import sectorglass.workbench.look.SignImages;
import sectorglass.workbench.recovery.Words;

/** The control that shows {@link FileRows}; rows are filled when they are seen. */
final class FileTable {
    private static final String[] COLUMNS = {"name", "size", "state", "modified", "note"};
    private static final int[] WIDTHS = {300, 150, 130, 170, 300};
    private static final int STATE = 2;
    private static final int NOTE = 4;
    /** Rows made at once; the toolkit makes each row when it is counted, and more follow when the last ones are seen. */
    private static final int STEP = 20_000;

    private final Tree tree;
    private final SignImages images = new SignImages();
    private final States states = new States();
    private final Opening opening = new Opening();
    /** Items that wait for the state of their entry. */
    private final Map<Integer, TreeItem> waiting = new HashMap<>();
    private FileVolume volume;
    private FileTree files;
    private FileRows rows;

    FileTable(Composite parent, Runnable chosen, Runnable opened) {
        tree = new Tree(parent, SWT.VIRTUAL | SWT.MULTI | SWT.FULL_SELECTION | SWT.BORDER);
        tree.setHeaderVisible(true);
        GridData data = new GridData(SWT.FILL, SWT.FILL, true, true);
        data.heightHint = 100;
        tree.setLayoutData(data);
        for (int i = 0; i < COLUMNS.length; i++) {
            TreeColumn column = new TreeColumn(tree, i == 1 ? SWT.RIGHT : SWT.LEFT);
            column.setText(Words.of("files." + COLUMNS[i]));
            column.setWidth(WIDTHS[i]);
        }
        tree.addListener(SWT.SetData, this::fill);
        tree.addListener(SWT.Selection, event -> chosen.run());
        tree.addListener(SWT.DefaultSelection, event -> opened.run());
        tree.addListener(SWT.Resize, event -> tree.getDisplay().asyncExec(this::widen));
    }

    /** Gives the room that is left to the name. */
    private void widen() {
        if (!tree.isDisposed()) {
            int others = 24;
            for (int i = 1; i < COLUMNS.length; i++) {
                others += tree.getColumn(i).getWidth();
            }
            tree.getColumn(0).setWidth(Math.max(WIDTHS[0], tree.getClientArea().width - others));
        }
    }

    /** Shows other rows, or none. */
    void show(FileVolume from, FileTree shownTree, FileRows shownRows) {
        tree.setRedraw(false);
        tree.setItemCount(0);
        waiting.clear();
        if (files != shownTree) {
            states.clear();
        }
        volume = from;
        files = shownTree;
        rows = shownRows;
        tree.setItemCount(rows == null ? 0 : Math.min(STEP, rows.top()));
        tree.setRedraw(true);
    }

    private void fill(Event event) {
        TreeItem item = (TreeItem) event.item;
        TreeItem parent = item.getParentItem();
        if (rows == null) {
            return;
        }
        int entry = parent == null ? rows.top(event.index) : rows.child((Integer) parent.getData(), event.index);
        item.setData(entry);
        boolean folder = files.folder(entry);
        FileStamp modified = files.modified(entry);
        String name = rows.isFlat() ? files.path(entry) : SafeText.of(files.name(entry));
        item.setText(new String[] {folder ? name + "/" : name, size(entry, folder), "", modified == null ? "" : time(modified),
            note(entry)});
        item.setItemCount(Math.min(STEP, rows.below(entry)));
        more(parent, event.index);
        if (!folder) {
            waiting.put(entry, item);
            FileState state = states.of(volume.files(), files, entry, this::found);
            if (state != null) {
                waiting.remove(entry);
                state(item, state);
            } else {
                item.setText(STATE, "\u2026");
            }
        }
    }

    private String note(int entry) {
        String test = opening.words(volume, entry);
        String gone = files.deleted(entry) ? Words.of("files.isdeleted") : "";
        return gone.isEmpty() ? test : test.isEmpty() ? gone : gone + " \u00B7 " + test;
    }

    /** Results of tests. */
    Opening opening() {
        return opening;
    }

    /** Fills the notes of the rows that were made anew. */
    void refresh() {
        notes(tree.getItems());
    }

    private void notes(TreeItem[] items) {
        for (TreeItem item : items) {
            if (item.getData() instanceof Integer entry) {
                item.setText(NOTE, note(entry));
                if (item.getExpanded()) {
                    notes(item.getItems());
                }
            }
        }
    }

    /** Makes more rows once the last ones are seen. */
    private void more(TreeItem parent, int seen) {
        int made = parent == null ? tree.getItemCount() : parent.getItemCount();
        int all = parent == null ? rows.top() : rows.below((Integer) parent.getData());
        FileRows of = rows;
        if (seen >= made - 200 && made < all) {
            tree.getDisplay().asyncExec(() -> {
                if (of != rows || tree.isDisposed() || parent != null && parent.isDisposed()) {
                    return;
                }
                if (parent != null) {
                    parent.setItemCount(Math.min(all, made + STEP));
                } else {
                    tree.setItemCount(Math.min(all, made + STEP));
                }
            });
        }
    }

    private String size(int entry, boolean folder) {
        long bytes = files.bytes(entry);
        return folder || bytes < 0 ? "" : Numbers.size(bytes);
    }

    private static String time(FileStamp stamp) {
        String text = stamp.local().toString().replace('T', ' ');
        return (text.length() > 19 ? text.substring(0, 19) : text) + (stamp.offset() == null ? "" : " " + stamp.offset());
    }

    private void found(int entry) {
        TreeItem item = waiting.remove(entry);
        if (item != null && !item.isDisposed() && Integer.valueOf(entry).equals(item.getData())) {
            states(item, entry);
        }
    }

    private void states(TreeItem item, int entry) {
        FileState state = states.of(volume.files(), files, entry, this::found);
        if (state != null) {
            state(item, state);
        }
    }

    private void state(TreeItem item, FileState state) {
        Sign sign = States.sign(state);
        item.setText(STATE, States.word(state));
        item.setImage(STATE, sign == null ? null : images.of(sign));
    }

    /** Opens the folders above an entry and chooses it; nothing where it is not among the rows. */
    void reveal(int entry) {
        List<Integer> path = new ArrayList<>();
        for (int at = entry; at >= 0 && at != files.root() && path.size() < 4096; at = files.parent(at)) {
            path.add(0, at);
        }
        TreeItem item = null;
        for (int wanted : path) {
            int count = item == null ? rows.top() : rows.below((Integer) item.getData());
            int index = 0;
            while (index < count && (item == null ? rows.top(index) : rows.child((Integer) item.getData(), index)) != wanted) {
                index++;
            }
            if (index == count) {
                return;
            }
            if (item == null) {
                tree.setItemCount(Math.max(tree.getItemCount(), index + 1));
            } else {
                item.setItemCount(Math.max(item.getItemCount(), index + 1));
                item.setExpanded(true);
            }
            item = item == null ? tree.getItem(index) : item.getItem(index);
            item.getText(); // asks for the row's data
        }
        if (item != null) {
            tree.setSelection(item);
            tree.showItem(item);
        }
    }

    /** The chosen entries. */
    List<Integer> chosen() {
        List<Integer> ids = new ArrayList<>();
        for (TreeItem item : tree.getSelection()) {
            if (item.getData() instanceof Integer id) {
                ids.add(id);
            }
        }
        return ids;
    }

    void focus() {
        tree.setFocus();
    }

    void dispose() {
        states.dispose();
        images.dispose();
    }
}
