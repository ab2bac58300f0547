package sectorglass.workbench.recovery.copies;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import org.eclipse.jface.dialogs.MessageDialog;
import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.SashForm;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.DirectoryDialog;
import org.eclipse.swt.widgets.FileDialog;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.TableColumn;
import org.eclipse.swt.widgets.TableItem;
import org.eclipse.swt.widgets.Text;

import sectorglass.image.ReadState;
import sectorglass.image.SafeText;
import sectorglass.image.SectorImage;
import sectorglass.recovery.Disputes;
import sectorglass.recovery.MergeExport;
import sectorglass.recovery.MergePlan;
import sectorglass.recovery.Passes;
import sectorglass.recovery.SameDisk;
import sectorglass.recovery.places.DumpFolders;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.model.OpenDisk;
import sectorglass.workbench.recovery.RangeTable;
import sectorglass.workbench.recovery.RecoverPart;
import sectorglass.workbench.recovery.WorkBar;
import sectorglass.workbench.recovery.Words;

/** Several images of one disk: whether they are of one disk, where they differ, which of them passes, and their merging. */
public final class CopiesPart extends RecoverPart {
    private static final String[] COLUMNS = {"number", "image", "sectors", "read", "only"};
    private static final int[] WIDTHS = {50, 150, 80, 80, 90};

    private final Copies copies = new Copies();
    private OpenDisk first;
    private Passes passes;
    private Table images;
    private Text judgement;
    private RangeTable ranges;
    private Button compare;
    private Button merge;
    private Button agreed;
    private WorkBar bar;

    @Override
    protected void create(Composite parent) {
        SashForm sash = new SashForm(parent, SWT.HORIZONTAL);
        sash.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        Composite left = column(sash);
        images = new Table(left, SWT.FULL_SELECTION | SWT.BORDER);
        images.setHeaderVisible(true);
        GridData data = new GridData(SWT.FILL, SWT.FILL, true, true);
        data.heightHint = 80;
        images.setLayoutData(data);
        for (int i = 0; i < COLUMNS.length; i++) {
            TableColumn made = new TableColumn(images, i == 1 ? SWT.LEFT : SWT.RIGHT);
            made.setText(Words.of("copies." + COLUMNS[i]));
            made.setWidth(WIDTHS[i]);
        }
        judgement = new Text(left, SWT.MULTI | SWT.READ_ONLY | SWT.WRAP | SWT.V_SCROLL);
        GridData below = new GridData(SWT.FILL, SWT.END, true, false);
        below.heightHint = 70;
        judgement.setLayoutData(below);
        Composite right = column(sash);
        ranges = new RangeTable(right, new String[] {Words.of("range.first"), Words.of("range.last"), Words.of("range.sectors"),
            Words.of("copies.taken"), Words.of("copies.why")}, new int[] {85, 85, 75, 90, 330}, 3);
        sash.setWeights(42, 58);
        Composite low = row(parent, 7);
        button(low, Words.of("copies.add"), this::add);
        button(low, Words.of("copies.clear"), this::clear);
        compare = button(low, Words.of("copies.compare"), this::compare);
        merge = button(low, Words.of("copies.merge"), this::merge);
        button(low, Words.of("copies.places"), this::places);
        button(low, Words.of("copies.folders"), this::folders);
        agreed = new Button(low, SWT.CHECK);
        agreed.setText(Words.of("copies.agreed"));
        agreed.addListener(SWT.Selection, event -> showRanges());
        bar = new WorkBar(parent);
    }

    private static Composite column(Composite sash) {
        Composite made = new Composite(sash, SWT.NONE);
        GridLayout grid = new GridLayout();
        grid.marginWidth = 0;
        grid.marginHeight = 0;
        grid.verticalSpacing = 2;
        made.setLayout(grid);
        return made;
    }

    @Override
    protected String purpose() {
        return Words.of("copies.empty");
    }

    @Override
    protected void opened() {
        bar.stop();
        OpenDisk now = desk().open();
        if (first == null || first.path() == null || !first.path().equals(now.path())) {
            copies.clear();
        }
        first = now;
        forget();
    }

    @Override
    protected void closed() {
        bar.stop();
        copies.clear();
        first = null;
        forget();
    }

    private void forget() {
        passes = null;
        show();
        bar.say(Words.of(copies.size() == 0 ? "copies.offer" : "copies.ready"));
    }

    private void clear() {
        bar.stop();
        copies.clear();
        forget();
    }

    private void add() {
        FileDialog dialog = new FileDialog(getSite().getShell(), SWT.OPEN | SWT.MULTI);
        dialog.setText(Words.of("copies.add.title"));
        if (dialog.open() != null) {
            add(java.util.Arrays.stream(dialog.getFileNames()).map(name -> Path.of(dialog.getFilterPath(), name)).toList());
        }
    }

    /** Adds images of the same disk. */
    public void add(List<Path> more) {
        SectorImage image = first.image();
        bar.start(Words.of("copies.opening"), progress -> {
            for (Path path : more) {
                copies.add(path, image);
            }
            return null;
        }, done -> forget());
    }

    private void compare() {
        SectorImage image = first.image();
        bar.start(Words.of("copies.comparing"), progress -> copies.compare(image, progress), made -> {
            passes = made;
            show();
            bar.say(Words.of("copies.compared", Numbers.grouped(passes.comparison().agree().count()),
                    Numbers.grouped(passes.comparison().differ().count()), Numbers.grouped(passes.plan().disputed().count()),
                    Numbers.grouped(passes.comparison().nowhere().count())));
        });
    }

    private void places() {
        OpenDisk open = first;
        bar.start(Words.of("copies.comparing"), progress -> copies.places(open.disk(), open.findings(), progress),
                found -> PlacesWindow.places(getSite().getShell(), found, open.image().sectorSize()));
    }

    private void folders() {
        Path one = folder("copies.folders.first");
        Path other = one == null ? null : folder("copies.folders.second");
        if (other != null) {
            bar.start(Words.of("copies.comparing"), progress -> DumpFolders.compare(one, other, progress),
                    found -> PlacesWindow.dumps(getSite().getShell(), one, other, found));
        }
    }

    private Path folder(String title) {
        DirectoryDialog dialog = new DirectoryDialog(getSite().getShell());
        dialog.setText(Words.of(title));
        dialog.setMessage(Words.of(title));
        String chosen = dialog.open();
        return chosen == null ? null : Path.of(chosen);
    }

    private void show() {
        images.removeAll();
        if (first != null) {
            line(0, first.image().name(), first.image());
            for (int i = 0; i < copies.size(); i++) {
                line(i + 1, copies.get(i).name(), copies.get(i));
            }
        }
        compare.setEnabled(copies.size() > 0);
        merge.setEnabled(passes != null);
        judgement.setText(passes == null ? "" : word(passes.sameDisk()) + "\n" + String.join("\n", passes.sameDisk().reasons().stream().map(Words::phrase).toList()) + open(passes.disputes()));
        showRanges();
    }

    private void line(int index, String name, SectorImage image) {
        new TableItem(images, SWT.NONE).setText(new String[] {String.valueOf(index + 1), SafeText.of(name), Numbers.grouped(image.sectors()),
            Numbers.grouped(image.inState(ReadState.READ, image.all()).count()),
            passes == null ? "" : Numbers.grouped(passes.comparison().onlyIn().get(index).count())});
    }

    /** What could not be judged, as a line of its own; nothing where all could. */
    private static String open(Disputes disputes) {
        List<String> words = new ArrayList<>();
        long[] counts = {disputes.bothHold(), disputes.allFail(), disputes.unchecked(), disputes.notLooked()};
        String[] keys = {"hold", "fail", "unchecked", "left"};
        for (int i = 0; i < counts.length; i++) {
            if (counts[i] > 0) {
                words.add(Words.of("copies.open." + keys[i], Numbers.grouped(counts[i])));
            }
        }
        return words.isEmpty() ? "" : "\n" + Words.of("copies.open", String.join(", ", words));
    }

    private static String word(SameDisk same) {
        return Words.of("copies.same." + same.answer().name().toLowerCase(Locale.ROOT));
    }

    private void showRanges() {
        if (passes == null) {
            ranges.clear();
            return;
        }
        List<MergePlan.Choice> shown = agreed.getSelection() ? passes.plan().choices()
                : passes.plan().choices().stream().filter(c -> c.why() == MergePlan.Reason.PASSES_CHECKS || c.why() == MergePlan.Reason.PASSES_FULL_CHECKS || c.why() == MergePlan.Reason.DISPUTED).toList();
        ranges.show(shown.size(), i -> {
            MergePlan.Choice choice = shown.get(i);
            return new String[] {Numbers.grouped(choice.range().first()), Numbers.grouped(choice.range().last()),
                Numbers.grouped(choice.range().count()), choice.copy() < 0 ? "" : String.valueOf(choice.copy() + 1),
                Words.of("copies.why." + choice.why().name().toLowerCase(Locale.ROOT))};
        }, i -> shown.get(i).range().first());
    }

    private void merge() {
        SameDisk same = passes.sameDisk();
        List<String> remarks = new ArrayList<>();
        remarks.add("same disk: " + same.answer().name().toLowerCase(Locale.ROOT).replace('_', ' ') + " – " + String.join("; ", same.reasons()));
        if (same.answer() != SameDisk.Answer.SAME) {
            String question = Words.of("copies.doubt", word(same), String.join("\n", same.reasons()));
            if (MessageDialog.open(MessageDialog.WARNING, getSite().getShell(), Words.of("copies.merge.title"), question, SWT.NONE,
                    Words.of("copies.not"), Words.of("copies.anyway")) != 1) {
                return;
            }
            remarks.add("merged on the word of the person who was asked");
        }
        FileDialog dialog = new FileDialog(getSite().getShell(), SWT.SAVE);
        dialog.setText(Words.of("copies.merge.title"));
        dialog.setFileName("merged.img");
        String file = dialog.open();
        if (file != null) {
            Passes from = passes;
            List<String> names = new ArrayList<>();
            names.add(first.path() == null ? first.image().name() : first.path().toString());
            copies.paths().forEach(path -> names.add(path.toString()));
            bar.start(Words.of("copies.merging"), progress -> MergeExport.write(from.merged(), from.plan(), Path.of(file), names, remarks, progress),
                    done -> bar.say(Words.of("copies.merged", done.image(), done.readMap(), done.log())));
        }
    }

    @Override
    public void dispose() {
        copies.clear();
        super.dispose();
    }
}
