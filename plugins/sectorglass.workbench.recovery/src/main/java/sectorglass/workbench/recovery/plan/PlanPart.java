package sectorglass.workbench.recovery.plan;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;

import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.SashForm;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.FileDialog;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.TableColumn;
import org.eclipse.swt.widgets.TableItem;
import org.eclipse.swt.widgets.Text;

import sectorglass.disk.Disk;
import sectorglass.image.SectorRange;
import sectorglass.recovery.PathPattern;
import sectorglass.recovery.PlanCsv;
import sectorglass.recovery.PlanOptions;
import sectorglass.recovery.ReadPlan;
import sectorglass.recovery.ReadPlanner;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.recovery.RangeTable;
import sectorglass.workbench.recovery.RecoverPart;
import sectorglass.workbench.recovery.WorkBar;
import sectorglass.workbench.recovery.Words;

/** What to read next: wishes on the left, stages in the middle, the sectors of the chosen stage on the right. */
public final class PlanPart extends RecoverPart {
    private static final String[] COLUMNS = {"number", "kind", "sectors", "size", "volume", "reason"};
    private static final int[] WIDTHS = {50, 185, 75, 150, 65, 300};

    private Text chosen;
    private Text last;
    private Button allocated;
    private Button unallocated;
    private Button second;
    private Table stages;
    private RangeTable ranges;
    private Button export;
    private WorkBar bar;
    private Text remarks;
    private ReadPlan plan;
    private Disk disk;

    @Override
    protected void create(Composite parent) {
        SashForm sash = new SashForm(parent, SWT.HORIZONTAL);
        sash.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        wishes(column(sash));
        Composite middle = column(sash);
        stages = new Table(middle, SWT.FULL_SELECTION | SWT.BORDER);
        stages.setHeaderVisible(true);
        GridData data = new GridData(SWT.FILL, SWT.FILL, true, true);
        data.heightHint = 80;
        stages.setLayoutData(data);
        for (int i = 0; i < COLUMNS.length; i++) {
            TableColumn made = new TableColumn(stages, i == 0 || i == 2 || i == 3 ? SWT.RIGHT : SWT.LEFT);
            made.setText(Words.of("plan." + COLUMNS[i]));
            made.setWidth(WIDTHS[i]);
        }
        stages.addListener(SWT.Selection, event -> showRanges());
        stages.addListener(SWT.Resize, event -> stages.getDisplay().asyncExec(this::widen));
        remarks = new Text(middle, SWT.MULTI | SWT.READ_ONLY | SWT.WRAP | SWT.V_SCROLL);
        GridData below = new GridData(SWT.FILL, SWT.END, true, false);
        below.heightHint = 68;
        remarks.setLayoutData(below);
        Composite right = column(sash);
        ranges = new RangeTable(right, new String[] {Words.of("range.first"), Words.of("range.last"), Words.of("range.sectors")},
                new int[] {85, 85, 75}, 3);
        sash.setWeights(22, 53, 25);
        Composite low = row(parent, 3);
        button(low, Words.of("plan.make"), this::make);
        export = button(low, Words.of("plan.export"), this::export);
        bar = new WorkBar(low);
        export.setEnabled(false);
    }

    private void wishes(Composite left) {
        chosen = list(left, "plan.chosen", "");
        last = list(left, "plan.later", PlanOptions.USUALLY_LATER.stream().map(PathPattern::toString).collect(Collectors.joining("\n")));
        allocated = check(left, "plan.allocated", PlanOptions.DEFAULT.allocated());
        unallocated = check(left, "plan.unallocated", PlanOptions.DEFAULT.unallocated());
        second = check(left, "plan.second", PlanOptions.DEFAULT.secondPass());
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

    private static Text list(Composite parent, String key, String content) {
        Label label = new Label(parent, SWT.NONE);
        label.setText(Words.of(key));
        label.setToolTipText(Words.of(key + ".tip"));
        Text made = new Text(parent, SWT.MULTI | SWT.BORDER | SWT.V_SCROLL | SWT.H_SCROLL);
        made.setToolTipText(Words.of(key + ".tip"));
        GridData data = new GridData(SWT.FILL, SWT.FILL, true, true);
        data.heightHint = 40;
        data.widthHint = 80;
        made.setLayoutData(data);
        made.setText(content);
        return made;
    }

    private static Button check(Composite parent, String key, boolean on) {
        Button made = new Button(parent, SWT.CHECK);
        made.setText(Words.of(key));
        made.setSelection(on);
        return made;
    }

    /** Gives the room that is left to the reason. */
    private void widen() {
        if (!stages.isDisposed()) {
            int others = 4;
            for (int i = 0; i < COLUMNS.length - 1; i++) {
                others += stages.getColumn(i).getWidth();
            }
            stages.getColumn(COLUMNS.length - 1).setWidth(Math.max(WIDTHS[COLUMNS.length - 1], stages.getClientArea().width - others));
        }
    }

    @Override
    protected String purpose() {
        return Words.of("plan.empty");
    }

    @Override
    protected void opened() {
        closed();
        disk = desk().open().disk();
        bar.say(Words.of("plan.offer"));
    }

    @Override
    protected void closed() {
        bar.stop();
        disk = null;
        plan = null;
        stages.removeAll();
        ranges.clear();
        remarks.setText("");
        export.setEnabled(false);
    }

    private static List<PathPattern> patterns(Text from) {
        return Arrays.stream(from.getText().split("[\\r\\n]+")).map(String::strip).filter(line -> !line.isEmpty()).map(PathPattern::new).toList();
    }

    private void make() {
        if (disk == null) {
            return;
        }
        Disk of = disk;
        PlanOptions options = new PlanOptions(patterns(chosen), patterns(last), allocated.getSelection(), unallocated.getSelection(),
                second.getSelection());
        bar.start(Words.of("plan.making"), progress -> ReadPlanner.plan(of, options, progress), this::show);
    }

    private void show(ReadPlan made) {
        plan = made;
        int size = disk.image().sectorSize();
        stages.removeAll();
        int number = 0;
        for (ReadPlan.Stage stage : plan.stages()) {
            TableItem item = new TableItem(stages, SWT.NONE);
            item.setText(new String[] {String.valueOf(++number),
                Words.of("stage." + stage.kind().name().toLowerCase(java.util.Locale.ROOT)) + (stage.complete() ? "" : " " + Words.of("plan.grows")),
                Numbers.grouped(stage.sectors()), Numbers.size(stage.sectors() * size),
                stage.volume() == null ? Words.of("plan.all") : String.valueOf(stage.volume()), Words.phrase(stage.reason())});
        }
        export.setEnabled(!plan.stages().isEmpty());
        bar.say(plan.stages().isEmpty() ? Words.of("plan.nothing") : Words.of("plan.summary", Numbers.grouped(plan.sectors()),
                Numbers.grouped(plan.unread()), Numbers.grouped(plan.saved()), Numbers.size(plan.saved() * size)));
        if (!plan.stages().isEmpty()) {
            stages.select(0);
        }
        showRanges();
    }

    private void showRanges() {
        int index = stages.getSelectionIndex();
        if (plan == null || index < 0) {
            ranges.clear();
            remarks.setText(plan == null ? "" : String.join("\n", plan.remarks().stream().map(Words::phrase).toList()));
            return;
        }
        ReadPlan.Stage stage = plan.stages().get(index);
        List<String> below = new java.util.ArrayList<>(List.of(Words.of("plan.stage", index + 1, Words.phrase(stage.reason()))));
        plan.remarks().forEach(remark -> below.add(Words.phrase(remark)));
        remarks.setText(String.join("\n", below));
        ranges.show(stage.ranges().runs(), i -> {
            SectorRange run = stage.ranges().run(i);
            return new String[] {Numbers.grouped(run.first()), Numbers.grouped(run.last()), Numbers.grouped(run.count())};
        }, i -> stage.ranges().run(i).first());
    }

    private void export() {
        FileDialog dialog = new FileDialog(getSite().getShell(), SWT.SAVE);
        dialog.setText(Words.of("plan.export.title"));
        dialog.setFileName("read-plan.csv");
        String file = dialog.open();
        if (file != null) {
            ReadPlan shown = plan;
            bar.start(Words.of("plan.exporting"), progress -> export(shown, java.nio.file.Path.of(file)),
                    written -> bar.say(Words.of("plan.exported", written)));
        }
    }

    @Override
    public void setFocus() {
        if (disk != null) {
            stages.setFocus();
        } else {
            super.setFocus();
        }
    }

    private static java.nio.file.Path export(ReadPlan plan, java.nio.file.Path file) throws java.io.IOException {
        try {
            return PlanCsv.write(plan, file);
        } catch (java.nio.file.FileAlreadyExistsException e) {
            throw new java.io.IOException(Words.of("exists", e.getMessage()), e);
        }
    }
}
