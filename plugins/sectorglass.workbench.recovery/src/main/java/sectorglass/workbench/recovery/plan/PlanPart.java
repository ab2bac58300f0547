package sectorglass.workbench.recovery.plan;

import java.nio.file.Path;
import java.util.ArrayList;
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
import sectorglass.image.OpenImage;
import sectorglass.image.SectorRange;
import sectorglass.recovery.JobPasses;
import sectorglass.recovery.PassHistory;
import sectorglass.recovery.PathPattern;
import sectorglass.recovery.PlanCsv;
import sectorglass.recovery.PlanOptions;
import sectorglass.recovery.ReadCost;
import sectorglass.recovery.ReadPlan;
import sectorglass.recovery.ReadPlanner;
import sectorglass.recovery.outcome.WantedList;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.model.OpenDisk;
import sectorglass.workbench.recovery.RangeTable;
import sectorglass.workbench.recovery.RecoverPart;
import sectorglass.workbench.recovery.WorkBar;
import sectorglass.workbench.recovery.Words;
import sectorglass.workbench.recovery.states.Reread;

/** What to read next: wishes on the left, stages in the middle, the sectors of the chosen stage on the right. */
public final class PlanPart extends RecoverPart {
    private static final String[] COLUMNS = {"number", "kind", "sectors", "size", "volume", "reason"};
    private static final int[] WIDTHS = {50, 185, 75, 150, 65, 300};

    private Text chosen;
    private Text wanted;
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
    private PassHistory history = JobPasses.NONE;
    private DriveWish drive = DriveWish.NONE;

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
        Composite low = row(parent, 5);
        button(low, Words.of("plan.make"), this::make);
        export = button(low, Words.of("plan.export"), this::export);
        button(low, Words.of("plan.pass"), this::choosePass);
        button(low, Words.of("plan.heads"), this::heads);
        bar = new WorkBar(low);
        export.setEnabled(false);
    }

    private void wishes(Composite left) {
        chosen = list(left, "plan.chosen", "");
        Composite line = row(left, 2);
        wanted = new Text(line, SWT.BORDER);
        wanted.setMessage(Words.of("plan.wanted.hint"));
        wanted.setToolTipText(Words.of("plan.wanted.tip"));
        GridData wide = new GridData(SWT.FILL, SWT.CENTER, true, false);
        wide.widthHint = 60;
        wanted.setLayoutData(wide);
        button(line, "\u2026", this::chooseList).setToolTipText(Words.of("plan.wanted.tip"));
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
        Button made = new Button(parent, SWT.CHECK | SWT.WRAP);
        made.setText(Words.of(key));
        made.setToolTipText(Words.of(key));
        GridData data = new GridData(SWT.FILL, SWT.CENTER, true, false);
        data.widthHint = 80;
        made.setLayoutData(data);
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
        Path path = desk().open().path();
        long sectors = disk.image().sectors();
        bar.start(Words.of("plan.job"), progress -> DriveJob.of(path, sectors), known -> {
            history = known.history();
            drive = drive.with(known.zones());
            bar.say(Words.of("plan.offer"));
            showRanges();
        });
    }

    @Override
    protected void closed() {
        bar.stop();
        disk = null;
        plan = null;
        history = JobPasses.NONE;
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
        PlanOptions options = drive.on(new PlanOptions(patterns(chosen), patterns(last), allocated.getSelection(), unallocated.getSelection(),
                second.getSelection()).withFailedAgain(history.failedAgain()));
        String list = wanted.getText().strip();
        bar.start(Words.of("plan.making"), progress -> ReadPlanner.plan(of, list.isEmpty() ? options : options.withWishes(WantedList.load(Path.of(list)).wishes()), progress),
                this::show);
    }

    private void chooseList() {
        FileDialog dialog = new FileDialog(getSite().getShell(), SWT.OPEN);
        dialog.setText(Words.of("plan.wanted.hint"));
        dialog.setFilterExtensions(new String[] {"*.csv", "*"});
        String file = dialog.open();
        if (file != null) {
            wanted.setText(file);
        }
    }

    private void show(ReadPlan made) {
        plan = made;
        int size = disk.image().sectorSize();
        stages.removeAll();
        int number = 0;
        for (ReadPlan.Stage stage : plan.stages()) {
            TableItem item = new TableItem(stages, SWT.NONE);
            item.setText(new String[] {String.valueOf(++number),
                Words.of("stage." + stage.kind().name().toLowerCase(java.util.Locale.ROOT)) + (stage.weak() ? ", " + Words.of("plan.weak") : "")
                        + (stage.complete() ? "" : " " + Words.of("plan.grows")),
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

    /** How long the plan takes, where the speed was told. */
    private void addTime(List<String> below) {
        ReadCost cost = drive.cost();
        if (cost == null) {
            return;
        }
        long seconds = Math.round(plan.stages().stream().mapToDouble(stage -> cost.seconds(stage.ranges(), disk.image().sectorSize())).sum());
        below.add(Words.of("plan.time", seconds / 3600, String.format(java.util.Locale.ROOT, "%02d", seconds % 3600 / 60), seconds % 60));
    }

    /** What each pass added, a line each. */
    private List<String> passes() {
        List<String> lines = new ArrayList<>();
        for (PassHistory.Pass pass : history.passes()) {
            lines.add(Words.of("plan.passed", pass.name(), Numbers.grouped(pass.added()), Numbers.grouped(pass.rescued()), Numbers.grouped(pass.failed()),
                    Numbers.grouped(pass.left())));
        }
        return lines;
    }

    private void showRanges() {
        int index = stages.getSelectionIndex();
        List<String> below = passes();
        if (plan == null || index < 0) {
            ranges.clear();
            if (plan != null) {
                plan.remarks().forEach(remark -> below.add(Words.phrase(remark)));
            }
            remarks.setText(String.join("\n", below));
            return;
        }
        ReadPlan.Stage stage = plan.stages().get(index);
        addTime(below);
        below.add(Words.of("plan.stage", index + 1, Words.phrase(stage.reason())));
        plan.remarks().forEach(remark -> below.add(Words.phrase(remark)));
        remarks.setText(String.join("\n", below));
        ranges.show(stage.ranges().runs(), i -> {
            SectorRange run = stage.ranges().run(i);
            return new String[] {Numbers.grouped(run.first()), Numbers.grouped(run.last()), Numbers.grouped(run.count())};
        }, i -> stage.ranges().run(i).first());
    }

    private void choosePass() {
        if (disk != null) {
            FileDialog dialog = new FileDialog(getSite().getShell(), SWT.OPEN);
            dialog.setText(Words.of("plan.pass.title"));
            dialog.setFilterExtensions(new String[] {"*.csv", "*"});
            String file = dialog.open();
            if (file != null) {
                addPass(Path.of(file));
            }
        }
    }

    /** Records a pass in the job beside the image and shows what is left to read. */
    public void addPass(Path readMap) {
        OpenDisk open = desk().open();
        if (open == null || open.path() == null || !(open.image() instanceof OpenImage image)) {
            bar.say(Words.of("plan.nofile"));
            return;
        }
        bar.start(Words.of("plan.adding"), progress -> DriveJob.add(open.path(), image, readMap),
                all -> Reread.start(open, JobPasses.applied(image.states(), all), List.of(), why -> bar.say(why == null ? Words.of("plan.offer") : why)));
    }

    private void heads() {
        OpenDisk open = desk().open();
        if (open == null) {
            return;
        }
        new HeadsDialog(getSite().getShell(), open.image().sectors(), drive, wish -> {
            boolean same = wish.zones().equals(drive.zones());
            drive = wish;
            if (same) {
                make();
            } else {
                bar.start(Words.of("plan.keeping"), progress -> DriveJob.keep(open.path(), wish.zones()), kept -> make());
            }
        }).open();
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
