package sectorglass.workbench.recovery.states;

import java.util.ArrayList;
import java.util.List;

import org.eclipse.swt.widgets.Shell;

import sectorglass.image.SafeText;
import sectorglass.image.SectorRange;
import sectorglass.recovery.growth.Since;
import sectorglass.verify.Finding;
import sectorglass.verify.Verdict;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.recovery.LineWindow;
import sectorglass.workbench.recovery.Words;

/** What changed since the last look, in a window of its own; a chosen line is shown in Sectors. */
public final class SinceWindow {
    private static final int MOST = 10_000;

    /** A line: the LBA where it leads, its kind, and what changed. */
    private record Line(long lba, String kind, String what) { }

    private SinceWindow() {
    }

    /**
     * Shows it.
     *
     * @param findings whether findings may be told: not while an exam runs
     */
    public static void open(Shell parent, Since since, int sectorSize, boolean findings) {
        List<LineWindow.Line> lines = lines(since, sectorSize, findings).stream()
                .map(line -> new LineWindow.Line(line.lba, line.lba < 0 ? "" : Numbers.grouped(line.lba), line.kind, line.what)).toList();
        new LineWindow(parent, Words.of("again.title"), summary(since, sectorSize, findings),
                new String[] {Words.of("again.lba"), Words.of("again.kind"), Words.of("again.what")}, new int[] {110, 170, 620}, 1, lines).open();
    }

    /** One sentence for each thing that changed, or that nothing did. */
    static String summary(Since since, int sectorSize, boolean findings) {
        long settled = findings ? since.settled().size() : 0;
        long others = findings ? since.appeared().size() + since.resolved().size() : 0;
        if (since.sectors().isEmpty() && settled + others + since.completedCount() == 0) {
            return Words.of("again.nothing");
        }
        long gained = since.sectors().gained().count();
        List<String> all = new ArrayList<>(List.of(Words.of("again.gained", Numbers.grouped(gained), Numbers.size(gained * sectorSize))));
        if (findings) {
            all.add(Words.of("again.findings", Numbers.grouped(settled), Numbers.grouped(since.appeared().size()),
                    Numbers.grouped(since.resolved().size())));
        }
        all.add(Words.of("again.files", Numbers.grouped(since.completedCount())));
        return String.join(" ", all);
    }

    private static List<Line> lines(Since since, int sectorSize, boolean findings) {
        List<Line> lines = new ArrayList<>();
        for (SectorRange run : since.sectors().gained()) {
            if (lines.size() < MOST) {
                lines.add(new Line(run.first(), Words.of("again.kind.gained"), Words.of("again.run", Numbers.grouped(run.count()),
                        Numbers.grouped(run.first()), Numbers.grouped(run.last()))));
            }
        }
        for (SectorRange run : since.sectors().changed().minus(since.sectors().gained())) {
            if (lines.size() < 2 * MOST) {
                lines.add(new Line(run.first(), Words.of("again.kind.other"), Words.of("again.run", Numbers.grouped(run.count()),
                        Numbers.grouped(run.first()), Numbers.grouped(run.last()))));
            }
        }
        if (findings) {
            since.appeared().forEach(f -> lines.add(line(f, "appeared", sectorSize)));
            since.settled().forEach(f -> lines.add(line(f, f.verdict() == Verdict.PASSED ? "passed" : "failed", sectorSize)));
            since.resolved().forEach(f -> lines.add(line(f, "resolved", sectorSize)));
        }
        since.completed().forEach(file -> lines.add(new Line(file.firstLba(), Words.of("again.kind.file"),
                Words.of("again.file", SafeText.of(file.path()), file.volume(), Numbers.grouped(file.bytes())))));
        return lines;
    }

    private static Line line(Finding finding, String kind, int sectorSize) {
        String what = finding.verdict() == Verdict.PASSED || finding.what() == null || finding.what().isEmpty() ? finding.check()
                : finding.check() + " \u2013 " + finding.what();
        return new Line(finding.where().start() / sectorSize, Words.of("again.kind." + kind), SafeText.of(what));
    }
}
