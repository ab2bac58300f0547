package sectorglass.recovery.growth;

import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

import sectorglass.disk.Disk;
import sectorglass.disk.FileState;
import sectorglass.image.Progress;
import sectorglass.recovery.outcome.Outcome;
import sectorglass.recovery.outcome.VolumeFiles;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.Verdict;

/**
 * What is known of an image at one moment, kept small: verdicts by check and place, and eight bytes for each file that is complete.
 */
public final class Standing {
    private final Map<String, Finding> findings;
    private final long[] complete;

    private Standing(Map<String, Finding> findings, long[] complete) {
        this.findings = findings;
        this.complete = complete;
    }

    /** Notes what is known now. Reads the file tables of all volumes. */
    public static Standing of(Disk disk, Findings findings, Progress progress) {
        Longs complete = new Longs();
        for (VolumeFiles volume : VolumeFiles.of(disk)) {
            Outcome outcome = Outcome.of(volume, false, progress);
            for (int entry = 0; entry < outcome.tree().size(); entry++) {
                if (complete(outcome, entry)) {
                    complete.add(key(volume.number(), outcome, entry));
                }
            }
        }
        return new Standing(byPlace(findings), complete.sorted());
    }

    /** Whether an entry is a person's file of which every byte was read. An empty file is complete as soon as its name was read. */
    static boolean complete(Outcome outcome, int entry) {
        return outcome.counted(entry) && outcome.state(entry) == FileState.COMPLETE;
    }

    /** A number for a file that stays the same from look to look: FNV-1a over volume, length and path. */
    static long key(int volume, Outcome outcome, int entry) {
        long hash = 0xCBF29CE484222325L;
        String text = volume + " " + outcome.tree().bytes(entry) + " " + outcome.tree().path(entry);
        for (int i = 0; i < text.length(); i++) {
            hash = (hash ^ text.charAt(i)) * 0x100000001B3L;
        }
        return hash;
    }

    /** Verdicts by check and first byte; where several share both, the worst. */
    static Map<String, Finding> byPlace(Findings findings) {
        Map<String, Finding> all = new LinkedHashMap<>();
        for (Finding finding : findings.all()) {
            all.merge(place(finding), finding, (one, other) -> rank(one) >= rank(other) ? one : other);
        }
        return all;
    }

    static String place(Finding finding) {
        return finding.check() + "@" + finding.where().start();
    }

    private static int rank(Finding finding) {
        return finding.verdict() == Verdict.FAILED ? 2 : finding.verdict() == Verdict.NOT_CHECKED ? 1 : 0;
    }

    /** The verdicts by {@link #place}. */
    Map<String, Finding> findings() {
        return Collections.unmodifiableMap(findings);
    }

    /** Whether a file was complete. */
    boolean wasComplete(long key) {
        return Arrays.binarySearch(complete, key) >= 0;
    }

    /** A growing row of numbers. */
    private static final class Longs {
        private long[] all = new long[256];
        private int count;

        void add(long value) {
            if (count == all.length) {
                all = Arrays.copyOf(all, count * 2);
            }
            all[count++] = value;
        }

        long[] sorted() {
            long[] made = Arrays.copyOf(all, count);
            Arrays.sort(made);
            return made;
        }
    }
}
