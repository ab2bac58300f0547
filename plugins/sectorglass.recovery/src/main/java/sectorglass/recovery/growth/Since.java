package sectorglass.recovery.growth;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;

import sectorglass.disk.Content;
import sectorglass.disk.Disk;
import sectorglass.image.Changes;
import sectorglass.image.Progress;
import sectorglass.recovery.outcome.Outcome;
import sectorglass.recovery.outcome.VolumeFiles;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.Verdict;

/**
 * What changed between two looks at an image that is still being written.
 *
 * @param sectors which sectors have another state
 * @param settled findings of now that were not checked before: passed or failed by now
 * @param appeared findings that fail now and were not there before
 * @param resolved findings of before that failed and do not fail any more
 * @param completed files that are complete now and were not before, the first ones
 * @param completedCount how many there are
 */
public record Since(Changes sectors, List<Finding> settled, List<Finding> appeared, List<Finding> resolved, List<Completed> completed,
        long completedCount) {
    private static final int MOST = 10_000;

    /**
     * A file that became complete.
     *
     * @param volume number of its volume
     * @param firstLba its first sector, or -1 where it has none of its own
     */
    public record Completed(int volume, String path, long bytes, long firstLba) { }

    /** Whether nothing is different. */
    public boolean isEmpty() {
        return sectors.isEmpty() && settled.isEmpty() && appeared.isEmpty() && resolved.isEmpty() && completedCount == 0;
    }

    /** Compares what was known with what is known now. */
    public static Since of(Standing before, Changes sectors, Disk disk, Findings findings, Progress progress) {
        Map<String, Finding> now = Standing.byPlace(findings);
        List<Finding> settled = new ArrayList<>();
        List<Finding> appeared = new ArrayList<>();
        now.forEach((place, finding) -> {
            Finding was = before.findings().get(place);
            if (was != null && was.verdict() == Verdict.NOT_CHECKED && was.cause() == null && finding.verdict() != Verdict.NOT_CHECKED) {
                settled.add(finding);
            } else if (finding.verdict() == Verdict.FAILED && finding.cause() == null && (was == null || was.verdict() == Verdict.PASSED)) {
                appeared.add(finding);
            }
        });
        List<Finding> resolved = new ArrayList<>();
        before.findings().forEach((place, was) -> {
            Finding is = now.get(place);
            if (was.verdict() == Verdict.FAILED && was.cause() == null && (is == null || is.verdict() == Verdict.PASSED)) {
                resolved.add(was);
            }
        });
        List<Completed> completed = new ArrayList<>();
        long count = 0;
        for (VolumeFiles volume : VolumeFiles.of(disk)) {
            Outcome outcome = Outcome.of(volume, false, progress);
            for (int entry = 0; entry < outcome.tree().size(); entry++) {
                if (Standing.complete(outcome, entry) && !before.wasComplete(Standing.key(volume.number(), outcome, entry))) {
                    count++;
                    if (completed.size() < MOST) {
                        completed.add(completed(volume, outcome, entry));
                    }
                }
            }
        }
        return new Since(sectors, List.copyOf(settled), List.copyOf(appeared), List.copyOf(resolved), List.copyOf(completed), count);
    }

    private static Completed completed(VolumeFiles volume, Outcome outcome, int entry) {
        Content content = volume.files().content(entry, "");
        int sectorSize = volume.volume().site().image().sectorSize();
        long first = content == null ? -1
                : content.extents().stream().filter(e -> e.imageByte() >= 0).mapToLong(e -> e.imageByte() / sectorSize).findFirst().orElse(-1);
        return new Completed(volume.number(), outcome.tree().path(entry), outcome.tree().bytes(entry), first);
    }
}
