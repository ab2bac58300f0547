package sectorglass.report.delivery;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

import sectorglass.disk.Disk;
import sectorglass.disk.FileState;
import sectorglass.disk.Partition;
import sectorglass.disk.PartitionMap;
import sectorglass.disk.VolumeInfo;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.recovery.AcceptedFindings;
import sectorglass.recovery.Job;
import sectorglass.recovery.PassHistory;
import sectorglass.recovery.ReadPlan;
import sectorglass.recovery.outcome.Outcome;
import sectorglass.report.document.Block;
import sectorglass.report.document.Html;
import sectorglass.verify.Finding;

/** The bench's report: the disk to scale, its maps and volumes, every finding with address and source, plan, passes, hashes, the job's log. */
final class BenchReport {
    private static final int FAILED_RANGES = 500;

    private final ReportInput input;
    private final Forms forms;
    private final SectorImage image;

    BenchReport(ReportInput input, Forms forms) {
        this.input = input;
        this.forms = forms;
        this.image = input.disk().image();
    }

    void write(Path file) throws IOException {
        try (Html html = new Html(file, forms.of("bench.title"), input.locale())) {
            List<String> below = new ArrayList<>();
            if (input.reference() != null) {
                below.add(forms.of("reference", input.reference()));
            }
            below.add(forms.day(input.at(), input.zone()));
            html.add(new Block.Title(forms.of("bench.title"), below));
            html.add(sources());
            html.add(new Block.Heading(forms.of("bench.strip")));
            html.raw(new StripDrawing(input.disk(), forms).svg());
            html.add(states());
            html.add(maps());
            html.add(partitions());
            html.add(outcomes());
            findings(html);
            plan(html);
            html.add(job());
        }
    }

    private static Block.Table table(List<String> columns, String alignment, List<List<String>> rows) {
        boolean[] right = new boolean[columns.size()];
        double[] widths = new double[columns.size()];
        for (int i = 0; i < right.length; i++) {
            right[i] = alignment.charAt(i) == 'r';
            widths[i] = 1;
        }
        return new Block.Table(columns, right, widths, rows, Set.of());
    }

    private List<String> words(String... keys) {
        List<String> words = new ArrayList<>();
        for (String key : keys) {
            words.add(forms.of(key));
        }
        return words;
    }

    private List<Block> sources() {
        List<List<String>> rows = new ArrayList<>();
        for (ReportInput.Source source : input.sources()) {
            rows.add(List.of(source.path(), forms.count(source.bytes()), source.sha256() == null ? forms.of("bench.not-hashed") : source.sha256()));
        }
        return List.of(new Block.Heading(forms.of("bench.image")), table(words("bench.part", "bench.bytes", "bench.sha256"), "lrl", rows),
                new Block.Paragraph(forms.of("bench.sectors", image.sectors(), image.sectorSize(), forms.size(image.bytes()))));
    }

    private List<Block> states() {
        List<List<String>> rows = new ArrayList<>();
        for (ReadState state : ReadState.values()) {
            long sectors = image.inState(state, image.all()).count();
            rows.add(List.of(forms.of("read." + state.word()), forms.count(sectors), forms.size(sectors * image.sectorSize()), forms.share(sectors, image.sectors())));
        }
        List<Block> blocks = new ArrayList<>(List.of(table(words("column.state", "bench.sectors.title", "column.size", "bench.share"), "lrrr", rows)));
        SectorRanges failed = image.inState(ReadState.FAILED, image.all());
        if (!failed.isEmpty()) {
            List<List<String>> ranges = new ArrayList<>();
            for (int i = 0; i < Math.min(FAILED_RANGES, failed.runs()); i++) {
                ranges.add(List.of(forms.count(failed.run(i).first()), forms.count(failed.run(i).count())));
            }
            blocks.add(new Block.Heading(forms.of("bench.failed", failed.runs())));
            blocks.add(table(words("bench.first", "bench.sectors.title"), "rr", ranges));
        }
        return blocks;
    }

    private List<Block> maps() {
        List<List<String>> rows = new ArrayList<>();
        for (Disk.FoundMap found : input.disk().maps()) {
            PartitionMap map = found.map();
            rows.add(List.of(map.kind(), forms.count(map.lba()), map.copy().word() + (map.leftover() ? ", " + forms.of("bench.leftover") : ""),
                    map.id() == null ? "" : map.id()));
        }
        return rows.isEmpty() ? List.of() : List.of(new Block.Heading(forms.of("bench.maps")),
                table(words("bench.kind", "bench.first", "bench.copy", "bench.id"), "lrll", rows));
    }

    private List<Block> partitions() {
        List<List<String>> rows = new ArrayList<>();
        for (Partition partition : input.disk().partitions()) {
            VolumeInfo info = partition.volume() == null ? null : partition.volume().info();
            rows.add(List.of(String.valueOf(partition.number()), forms.count(partition.range().first()), forms.count(partition.range().count()),
                    forms.size(partition.range().count() * image.sectorSize()), info == null ? "" : info.kind(), info == null || info.label() == null ? "" : info.label(),
                    info == null || info.serial() == null ? info == null || info.uuid() == null ? "" : info.uuid() : info.serial()));
        }
        return rows.isEmpty() ? List.of() : List.of(new Block.Heading(forms.of("bench.partitions")),
                table(words("bench.number", "bench.first", "bench.sectors.title", "column.size", "bench.kind", "bench.label", "bench.id"), "rrrrlll", rows));
    }

    private List<Block> outcomes() {
        List<List<String>> rows = new ArrayList<>();
        for (Outcome outcome : input.outcomes()) {
            List<String> row = new ArrayList<>(List.of(String.valueOf(outcome.volume().number()), forms.count(outcome.totals().files()), forms.count(outcome.totals().bytes()),
                    forms.count(outcome.totals().readBytes())));
            for (FileState state : FileState.values()) {
                row.add(forms.count(outcome.totals().files(state)));
            }
            row.add(forms.count(outcome.totals().empty()));
            row.add(forms.count(outcome.deleted().files()));
            row.add(forms.count(outcome.unreadMetadata()));
            rows.add(row);
        }
        List<String> columns = words("bench.number", "column.files", "bench.bytes", "bench.read");
        for (FileState state : FileState.values()) {
            columns.add(forms.of("bench.state." + state.word()));
        }
        columns.addAll(words("bench.empty", "bench.deleted", "bench.unread-metadata"));
        return rows.isEmpty() ? List.of() : List.of(new Block.Heading(forms.of("bench.files")), table(columns, "r".repeat(columns.size()), rows));
    }

    private void findings(Html html) {
        html.add(new Block.Heading(forms.of("bench.findings", input.findings().listed().size())));
        boolean[] right = {true, false, false, true, false, false};
        html.tableBegin(words("bench.number", "bench.check", "bench.severity", "bench.address", "bench.values", "bench.meaning"), right);
        AcceptedFindings accepted = new AcceptedFindings(input.job().accepted());
        for (Finding finding : input.findings().listed()) {
            long lba = finding.where().start() / image.sectorSize();
            String values = (finding.stored() == null ? "" : forms.of("bench.stored", finding.stored()))
                    + (finding.computed() == null ? "" : " " + forms.of("bench.computed", finding.computed()));
            html.row(List.of(String.valueOf(finding.id()), finding.check() + (finding.count() > 1 ? " \u00D7" + finding.count() : ""),
                    forms.of("severity." + (finding.severity() == null ? "not-checked" : finding.severity().word().replace(' ', '-')))
                            + (accepted.has(finding) ? ", " + forms.of("bench.is-accepted") : ""),
                    forms.of("bench.at", lba, finding.where().start() % image.sectorSize(), finding.where().start()), values,
                    finding.what() + " " + finding.means() + " " + finding.advice() + (finding.reason() == null ? "" : " " + finding.reason())
                            + " [" + finding.source() + "]"), right, false);
        }
        html.tableEnd();
    }

    private void plan(Html html) {
        html.add(new Block.Heading(forms.of("bench.plan")));
        if (input.plan().stages().isEmpty()) {
            html.add(new Block.Paragraph(forms.of("bench.plan.none")));
            return;
        }
        List<List<String>> rows = new ArrayList<>();
        int number = 0;
        for (ReadPlan.Stage stage : input.plan().stages()) {
            StringBuilder first = new StringBuilder();
            for (int i = 0; i < Math.min(6, stage.ranges().runs()); i++) {
                SectorRange run = stage.ranges().run(i);
                first.append(i == 0 ? "" : ", ").append(run.first()).append('+').append(run.count());
            }
            rows.add(List.of(String.valueOf(++number), forms.of("stage." + stage.kind().name().toLowerCase(java.util.Locale.ROOT)) + (stage.weak() ? ", " + forms.of("stage.weak") : ""), stage.volume() == null ? "" : String.valueOf(stage.volume()), forms.count(stage.sectors()),
                    forms.size(stage.sectors() * image.sectorSize()), forms.count(stage.ranges().runs()), first + (stage.ranges().runs() > 6 ? " \u2026" : "")));
        }
        html.add(table(words("bench.number", "bench.stage", "bench.volume", "bench.sectors.title", "column.size", "bench.ranges", "bench.first-ranges"), "rlrrrrl", rows));
        input.plan().remarks().forEach(remark -> html.add(new Block.Paragraph(remark)));
    }

    private List<Block> job() {
        List<Block> blocks = new ArrayList<>();
        Job job = input.job();
        if (!job.passes().isEmpty()) {
            List<List<String>> rows = new ArrayList<>();
            for (Job.Pass pass : job.passes()) {
                rows.add(List.of(String.valueOf(pass.name()), pass.at() == null ? "" : forms.moment(pass.at().atZone(input.zone()).toLocalDateTime()),
                        pass.readMap() == null ? "" : pass.readMap(), pass.remark() == null ? "" : pass.remark()));
            }
            blocks.add(new Block.Heading(forms.of("bench.passes")));
            blocks.add(table(words("bench.pass", "column.date", "bench.map", "bench.remark"), "llll", rows));
        }
        if (!input.history().passes().isEmpty()) {
            List<List<String>> rows = new ArrayList<>();
            for (PassHistory.Pass pass : input.history().passes()) {
                rows.add(List.of(pass.name(), forms.count(pass.added()), forms.count(pass.rescued()), forms.count(pass.failed()), forms.count(pass.left())));
            }
            blocks.add(new Block.Heading(forms.of("bench.added")));
            blocks.add(table(words("bench.pass", "bench.added.read", "bench.added.rescued", "bench.added.failed", "bench.added.left"), "lrrrr", rows));
        }
        blocks.addAll(new JobRecords(input, forms).tables());
        if (!job.log().isEmpty()) {
            List<List<String>> rows = new ArrayList<>();
            for (Job.Entry entry : job.log()) {
                rows.add(List.of(entry.at() == null ? "" : forms.moment(entry.at().atZone(input.zone()).toLocalDateTime()), String.valueOf(entry.who()), String.valueOf(entry.what())));
            }
            blocks.add(new Block.Heading(forms.of("bench.log")));
            blocks.add(table(words("column.date", "bench.who", "bench.what"), "lll", rows));
        }
        return blocks;
    }
}
