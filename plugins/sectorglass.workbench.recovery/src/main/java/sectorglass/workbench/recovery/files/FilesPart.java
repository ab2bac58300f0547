package sectorglass.workbench.recovery.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.DirectoryDialog;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Text;

import sectorglass.disk.Allocation;
import sectorglass.disk.Disk;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.image.SafeText;
import sectorglass.recovery.Job;
import sectorglass.recovery.way.WayFinder;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.model.Marked;
import sectorglass.workbench.recovery.RecoverPart;
import sectorglass.workbench.recovery.WorkBar;
import sectorglass.workbench.recovery.Words;
import sectorglass.workbench.recovery.approval.ApprovalWords;
import sectorglass.workbench.recovery.approval.Approving;
import sectorglass.workbench.recovery.report.Reporting;
import sectorglass.workbench.recovery.way.WayWindow;

/** The files of a volume: what they are called, how large they are, what was recovered of each; from here they are shown and extracted. */
public final class FilesPart extends RecoverPart {
    private static final int PAUSE = 250;
    /** More files than this are not shown on the strip together. */
    private static final int MOST_MARKED = 200;

    private Combo volumes;
    private Text words;
    private Combo states;
    private Button deleted;
    private FileTable table;
    private Button record;
    private Button content;
    private Button test;
    private Button runs;
    private Button way;
    private Button extract;
    private WorkBar bar;
    private Label approval;
    private List<FileVolume> all = List.of();
    private FileVolume shown;
    private FileTree tree;
    private final Runnable later = this::filter;

    @Override
    protected void create(Composite parent) {
        Composite top = row(parent, 6);
        volumes = new Combo(top, SWT.READ_ONLY);
        volumes.setToolTipText(Words.of("files.volume"));
        volumes.addListener(SWT.Selection, event -> choose(volumes.getSelectionIndex()));
        new Label(top, SWT.NONE).setText(Words.of("files.filter"));
        words = new Text(top, SWT.SEARCH | SWT.ICON_CANCEL);
        words.setMessage(Words.of("files.filter.hint"));
        words.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        words.addListener(SWT.Modify, event -> words.getDisplay().timerExec(PAUSE, later));
        states = new Combo(top, SWT.READ_ONLY);
        states.add(Words.of("files.anystate"));
        for (FileState state : FileState.values()) {
            states.add(States.word(state));
        }
        states.select(0);
        states.addListener(SWT.Selection, event -> filter());
        deleted = new Button(top, SWT.CHECK);
        deleted.setText(Words.of("files.deleted"));
        deleted.setSelection(true);
        deleted.addListener(SWT.Selection, event -> filter());
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
        button(low, Words.of("files.report"), () -> Reporting.ask(getSite().getShell(), desk().open()));
        button(low, Words.of("files.approval"), () -> Approving.ask(getSite().getShell())).setToolTipText(Words.of("files.approval.tip"));
        Composite foot = row(parent, 2);
        bar = new WorkBar(foot);
        approval = new Label(foot, SWT.NONE);
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
        List<Job.Approval> approvals = desk().records().approvals();
        String trouble = desk().records().trouble();
        String said = trouble != null ? trouble : ApprovalWords.latest(approvals);
        approval.setText(said.replace("&", "&&"));
        approval.setToolTipText(approvals.isEmpty() || approvals.get(approvals.size() - 1).note() == null ? said
                : said + "\n" + SafeText.of(approvals.get(approvals.size() - 1).note()));
        approval.getParent().layout();
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
        });
    }

    private boolean filters() {
        return !words.getText().isBlank() || states.getSelectionIndex() > 0 || !deleted.getSelection();
    }

    private void filter() {
        if (tree == null || words.isDisposed()) {
            return;
        }
        if (!filters()) {
            bar.stop();
            show(FileRows.of(tree));
            return;
        }
        String asked = words.getText();
        FileState state = states.getSelectionIndex() == 0 ? null : FileState.values()[states.getSelectionIndex() - 1];
        boolean withDeleted = deleted.getSelection();
        FileVolume from = shown;
        FileTree of = tree;
        bar.start(Words.of("files.filtering"), progress -> FileRows.filtered(from.files(), of, asked, state, withDeleted, progress), this::show);
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
            if (from == shown && !words.isDisposed() && ids.equals(table.chosen())) {
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
            } else if (from == shown && !words.isDisposed()) {
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
            words.setText("");
            words.getDisplay().timerExec(-1, later);
            states.select(0);
            deleted.setSelection(true);
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
        DirectoryDialog dialog = new DirectoryDialog(getSite().getShell(), SWT.SAVE);
        dialog.setText(Words.of("files.extract.title"));
        dialog.setMessage(Words.of("files.extract.where"));
        String folder = dialog.open();
        if (folder != null) {
            List<Integer> wanted = FileRows.outermost(tree, new ArrayList<>(table.chosen()));
            boolean withDeleted = deleted.getSelection();
            FileVolume from = shown;
            bar.start(Words.of("files.extracting"),
                    progress -> Extracting.run(from.files(), wanted, java.nio.file.Path.of(folder), withDeleted, progress), done -> bar.say(done.words()));
        }
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
