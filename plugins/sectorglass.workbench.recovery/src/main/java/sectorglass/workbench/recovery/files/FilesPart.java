package sectorglass.workbench.recovery.files;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.FileDialog;

import sectorglass.disk.Allocation;
import sectorglass.disk.Disk;
import sectorglass.disk.FileTree;
import sectorglass.image.SafeText;
import sectorglass.recovery.outcome.FileKind;
import sectorglass.recovery.way.WayFinder;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.model.Marked;
import sectorglass.workbench.recovery.RecoverPart;
import sectorglass.workbench.recovery.WorkBar;
import sectorglass.workbench.recovery.Words;
import sectorglass.workbench.recovery.approval.ApprovalLine;
import sectorglass.workbench.recovery.approval.Approving;
import sectorglass.workbench.recovery.report.Reporting;
import sectorglass.workbench.recovery.way.WayWindow;

/** The files of a volume: what they are called, how large they are, what was recovered of each; from here they are shown and extracted. */
public final class FilesPart extends RecoverPart {
    /** More files than this are not shown on the strip together. */
    private static final int MOST_MARKED = 200;

    private Combo volumes;
    private FileFilter filter;
    private FileTable table;
    private Button record;
    private Button content;
    private Button test;
    private Button runs;
    private Button way;
    private Button extract;
    private WorkBar bar;
    private ApprovalLine approval;
    private List<FileVolume> all = List.of();
    private FileVolume shown;
    private FileTree tree;
    /** What waits for the tree of the volume. */
    private Runnable waiting;

    @Override
    protected void create(Composite parent) {
        Composite top = row(parent, 7);
        volumes = new Combo(top, SWT.READ_ONLY);
        volumes.setToolTipText(Words.of("files.volume"));
        volumes.addListener(SWT.Selection, event -> choose(volumes.getSelectionIndex()));
        filter = new FileFilter(top, this::filter);
        table = new FileTable(parent, this::chosen, this::showRecord);
        Composite low = buttons(parent);
        record = button(low, Words.of("files.record"), this::showRecord);
        content = button(low, Words.of("files.content"), this::showContent);
        test = button(low, Words.of("files.test"), this::test);
        test.setToolTipText(Words.of("files.test.tip"));
        way = button(low, Words.of("files.way"), this::showWay);
        way.setToolTipText(Words.of("files.way.tip"));
        runs = button(low, Words.of("files.runs"), this::showRuns);
        button(low, Words.of("files.owner"), this::showOwner).setToolTipText(Words.of("files.owner.tip"));
        extract = button(low, Words.of("files.extract"), this::extract);
        button(low, Words.of("files.wishes"), this::askWishes).setToolTipText(Words.of("files.wishes.tip"));
        button(low, Words.of("files.report"), () -> Reporting.ask(getSite().getShell(), desk().open()));
        button(low, Words.of("files.approval"), () -> Approving.ask(getSite().getShell())).setToolTipText(Words.of("files.approval.tip"));
        Composite foot = row(parent, 2);
        bar = new WorkBar(foot);
        approval = new ApprovalLine(foot);
        chosen();
    }

    @Override
    protected String purpose() {
        return Words.of("files.empty");
    }

    @Override
    protected void opened() {
        table.opening().clear();
        recordsChanged();
        all = FileVolume.of(desk().open().disk());
        volumes.removeAll();
        all.forEach(volume -> volumes.add(volume.words(desk().open().image().sectorSize())));
        volumes.getParent().layout();
        if (all.isEmpty()) {
            closed();
            bar.say(Words.of("files.none"));
            return;
        }
        int first = FileVolume.largest(all);
        volumes.select(first);
        choose(first);
    }

    @Override
    public void recordsChanged() {
        approval.update();
    }

    @Override
    protected void closed() {
        bar.stop();
        shown = null;
        tree = null;
        table.show(null, null, null);
        chosen();
    }

    private void choose(int index) {
        shown = all.get(index);
        tree = null;
        FileVolume wanted = shown;
        table.show(null, null, null);
        bar.start(Words.of("files.reading"), progress -> wanted.files().tree(progress), found -> {
            tree = found;
            filter();
            Runnable next = waiting;
            waiting = null;
            if (next != null) {
                next.run();
            }
        });
    }

    /** Lists the files of a kind in a volume, without deleted ones. */
    public void showKind(int volume, FileKind kind) {
        filter.only(kind);
        with(volume, () -> { });
    }

    /** Chooses a folder of a volume in the tree. */
    public void showFolder(int volume, int folder) {
        filter.clear();
        with(volume, () -> {
            table.reveal(folder);
            chosen();
        });
    }

    /** Reads the tree of a volume where another one is shown, then filters, then does something. */
    private void with(int volume, Runnable then) {
        for (int i = 0; i < all.size(); i++) {
            if (all.get(i).number() == volume && shown == all.get(i) && tree != null) {
                filter();
                then.run();
                return;
            } else if (all.get(i).number() == volume) {
                waiting = then;
                volumes.select(i);
                choose(i);
                return;
            }
        }
    }

    private void filter() {
        if (tree == null) {
            return;
        }
        if (!filter.on()) {
            bar.stop();
            show(FileRows.of(tree));
            return;
        }
        FileVolume from = shown;
        FileTree of = tree;
        FileFilter.Asked asked = filter.asked();
        bar.start(Words.of("files.filtering"),
                progress -> FileRows.filtered(from.files(), of, asked.words(), asked.state(), asked.kind(), asked.deleted(), progress), this::show);
    }

    private void show(FileRows rows) {
        table.show(shown, tree, rows);
        String count = Words.of(rows.isFlat() ? "files.found" : "files.count", Numbers.grouped(rows.isFlat() ? rows.top() : tree.size() - 1));
        long unread = tree.unreadMetadata().count();
        bar.say(unread == 0 ? count : count + "  " + Words.of("files.unread", Numbers.grouped(unread)));
        chosen();
    }

    private void chosen() {
        List<Integer> ids = table.chosen();
        record.setEnabled(ids.size() == 1);
        content.setEnabled(ids.size() == 1);
        way.setEnabled(ids.size() == 1);
        test.setEnabled(tree != null);
        runs.setEnabled(ids.size() == 1 && !tree.folder(ids.get(0)));
        mark(ids);
        extract.setEnabled(!ids.isEmpty());
    }

    private void test() {
        FileVolume from = shown;
        FileTree of = tree;
        List<Integer> wanted = FileRows.outermost(tree, new ArrayList<>(table.chosen()));
        bar.start(Words.of("files.testing"), progress -> Opening.run(from, of, wanted, progress), results -> {
            int[] counts = table.opening().keep(from, results);
            table.refresh();
            bar.say(Words.of("files.tested", counts[0], counts[1], counts[2], counts[3]));
        });
    }

    private void showRecord() {
        if (table.chosen().size() == 1) {
            FilePlaces.of(shown, tree, table.chosen().get(0)).ifPresentOrElse(this::go, () -> bar.say(Words.of("files.noplace")));
        }
    }

    private void showContent() {
        if (table.chosen().size() == 1) {
            FilePlaces.content(shown, table.chosen().get(0)).ifPresentOrElse(range -> {
                go(range.start());
                desk().select(range.start(), range.end() - 1);
            }, () -> bar.say(Words.of("files.nocontent")));
        }
    }

    /** Shows the sectors of the chosen files on the strip. */
    private void mark(List<Integer> ids) {
        if (desk().open() == null) {
            return;
        }
        if (ids.isEmpty() || ids.size() > MOST_MARKED) {
            desk().mark(Marked.NOTHING);
            return;
        }
        FileVolume from = shown;
        int sectorSize = desk().open().image().sectorSize();
        String name = SafeText.of(tree.name(ids.get(0))) + (ids.size() > 1 ? " \u2026" : "");
        desk().work(open -> FilePlaces.sectors(from, ids, sectorSize), sectors -> {
            if (from == shown && !volumes.isDisposed() && ids.equals(table.chosen())) {
                desk().mark(new Marked(sectors, name));
            }
        });
    }

    private void showWay() {
        int entry = table.chosen().get(0);
        if (tree.deleted(entry)) {
            bar.say(Words.of("files.way.deleted"));
            return;
        }
        String path = tree.path(entry);
        int volume = shown.number();
        Disk disk = desk().open().disk();
        bar.start(Words.of("files.way.search"), progress -> new WayFinder(disk, Locale.getDefault()).way(volume, path),
                found -> found.ifPresentOrElse(way -> WayWindow.show(getSite(), way), () -> bar.say(Words.of("files.way.none"))));
    }

    private void showRuns() {
        int entry = table.chosen().get(0);
        String name = SafeText.of(tree.name(entry));
        FileVolume from = shown;
        desk().work(open -> FilePlaces.extents(from, entry), extents -> {
            if (extents.isEmpty()) {
                bar.say(Words.of("files.nocontent"));
            } else if (from == shown && !volumes.isDisposed()) {
                new RunsWindow(getSite().getShell(), name, extents, desk().open().image(), range -> desk().goTo(range, name)).open();
            }
        });
    }

    /** Looks for the file that the sector at the caret belongs to, and chooses it. */
    private void showOwner() {
        if (desk().open() == null) {
            return;
        }
        long lba = desk().caret() / desk().open().image().sectorSize();
        int index = FileVolume.holding(all, lba);
        if (index < 0) {
            bar.say(Words.of("files.owner.novolume", Numbers.grouped(lba)));
            return;
        }
        FileVolume from = all.get(index);
        Optional<Allocation> allocation = from.volume().capability(Allocation.class);
        if (allocation.isEmpty()) {
            bar.say(Words.of("files.owner.nomap"));
            return;
        }
        bar.start(Words.of("files.owner.search"), progress -> new Owned(from.files().tree(progress), allocation.get().owners(lba, progress)),
                found -> owned(index, lba, found));
    }

    /** Who owns a sector, with the tree that the owners stand in. */
    private record Owned(FileTree tree, List<Allocation.Owner> owners) { }

    private void owned(int index, long lba, Owned found) {
        String sector = Numbers.grouped(lba);
        Optional<Allocation.Owner> file = found.owners().stream().filter(o -> o.entry() >= 0).findFirst();
        if (file.isPresent()) {
            volumes.select(index);
            shown = all.get(index);
            tree = found.tree();
            filter.clear();
            show(FileRows.of(tree));
            table.reveal(file.get().entry());
            chosen();
        }
        Allocation.Owner owner = file.orElse(found.owners().isEmpty() ? null : found.owners().get(0));
        bar.say(owner == null ? Words.of("files.owner.none", sector)
                : Words.of(found.owners().size() > 1 ? "files.owner.several" : "files.owner.is", sector, SafeText.of(owner.owner()),
                        Numbers.grouped(owner.offset()), found.owners().size() - 1));
    }

    private void go(long address) {
        desk().goTo(address, SafeText.of(tree.name(table.chosen().get(0))));
    }

    private void extract() {
        List<Integer> wanted = FileRows.outermost(tree, new ArrayList<>(table.chosen()));
        FileVolume from = shown;
        new ExtractDialog(getSite().getShell(), filter.asked().deleted(),
                wish -> bar.start(Words.of("files.extracting"), progress -> Extracting.run(from.files(), wanted, wish, progress), bar::say)).open();
    }

    private void askWishes() {
        FileDialog dialog = new FileDialog(getSite().getShell(), SWT.OPEN);
        dialog.setText(Words.of("wishes.title"));
        dialog.setFilterExtensions(new String[] {"*.csv", "*"});
        String chosen = dialog.open();
        if (chosen != null) {
            wishes(Path.of(chosen));
        }
    }

    /** Answers a customer's wanted list from all volumes. */
    public void wishes(Path list) {
        Disk disk = desk().open().disk();
        bar.start(Words.of("wishes.answering"), progress -> WishWindow.answers(list, disk, progress), answers -> {
            bar.say(Words.of("wishes.done", answers.size()));
            WishWindow.open(getSite().getShell(), answers, disk.image().sectorSize());
        });
    }

    @Override
    public void setFocus() {
        if (shown != null) {
            table.focus();
        } else {
            super.setFocus();
        }
    }

    @Override
    public void dispose() {
        if (table != null) {
            table.dispose();
        }
        super.dispose();
    }
}
