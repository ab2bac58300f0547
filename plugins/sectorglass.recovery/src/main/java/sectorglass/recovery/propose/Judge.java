package sectorglass.recovery.propose;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.Partition;
import sectorglass.disk.Survey;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.verify.Severity;
import sectorglass.verify.Verdict;

/** Runs the same checks over an image with and without changes and tells which verdicts turn. */
public final class Judge {
    private final RuleBook book;
    private final Survey survey;

    /**
     * What one run gave.
     *
     * @param disk as surveyed
     * @param findings all of them
     * @param byCheck the worst finding of each check in each structure
     */
    public record Run(Disk disk, Findings findings, Map<Key, Finding> byCheck) {

        /** Volumes as kind and first LBA. */
        public List<String> volumes() {
            List<String> all = new ArrayList<>();
            for (Partition partition : disk.partitions()) {
                if (partition.volume() != null) {
                    all.add(partition.volume().info().kind() + " at " + partition.range().first() * disk.image().sectorSize());
                }
            }
            if (disk.volume() != null) {
                all.add(disk.volume().info().kind() + " at 0");
            }
            return all;
        }
    }

    /** A check in a structure. */
    public record Key(String check, long structure) implements Comparable<Key> {
        @Override
        public int compareTo(Key other) {
            int byStructure = Long.compare(structure, other.structure);
            return byStructure != 0 ? byStructure : check.compareTo(other.check);
        }
    }

    /** With texts from a book. */
    public Judge(RuleBook book) {
        this.book = book;
        this.survey = Survey.ofProviders();
    }

    /** Surveys and checks an image at once; no full checks. */
    public Run run(SectorImage image, Progress progress) {
        Disk disk = survey.disk(image, progress);
        Findings findings = survey.verify(disk, Level.QUICK, book, progress);
        Map<Key, Finding> byCheck = new TreeMap<>();
        for (Finding finding : findings.all()) {
            byCheck.merge(new Key(finding.check(), finding.structure().start()), finding, Judge::worse);
        }
        return new Run(disk, findings, byCheck);
    }

    private static Finding worse(Finding one, Finding two) {
        return rank(two) > rank(one) ? two : one;
    }

    private static int rank(Finding finding) {
        return switch (finding.verdict()) {
            case PASSED -> 0;
            case NOT_CHECKED -> 1;
            case FAILED -> 4 - finding.severity().ordinal();
        };
    }

    /**
     * Compares two runs.
     *
     * @param changed image bytes in which the images differ
     * @param kept image bytes of fields that are not known: a failing check about them alone is no harm, they are named anyway
     */
    public static Effect compare(Run before, Run after, List<ByteRange> changed, List<ByteRange> kept) {
        List<Turn> turned = new ArrayList<>();
        List<Turn> worse = new ArrayList<>();
        List<Turn> seen = new ArrayList<>();
        before.byCheck().forEach((key, was) -> {
            Finding is = after.byCheck().get(key);
            if (is == null) {
                if (was.verdict() == Verdict.FAILED) {
                    turned.add(turn(was, null));
                }
            } else if (rank(is) > rank(was)) {
                worse.add(turn(was, is));
            } else if (rank(is) < rank(was) && (is.verdict() == Verdict.PASSED || was.verdict() == Verdict.FAILED)) {
                turned.add(turn(was, is));
            }
        });
        after.byCheck().forEach((key, is) -> {
            if (!before.byCheck().containsKey(key) && is.verdict() == Verdict.FAILED) {
                boolean own = changed.stream().anyMatch(range -> range.overlaps(is.where()))
                        && kept.stream().noneMatch(range -> range.contains(is.where()));
                (own && is.cause() == null ? worse : seen).add(turn(null, is));
            }
        });
        return new Effect(before.findings().counts(), after.findings().counts(), List.copyOf(turned), List.copyOf(worse),
                List.copyOf(seen), before.volumes(), after.volumes());
    }

    private static Turn turn(Finding was, Finding is) {
        Finding told = is != null && is.verdict() == Verdict.FAILED ? is : was != null ? was : is;
        Severity severity = is != null && is.verdict() == Verdict.FAILED ? is.severity() : was != null ? was.severity() : null;
        return new Turn(told.check(), is != null ? is.where() : was.where(), was == null ? null : was.verdict(),
                is == null ? null : is.verdict(), severity, told.what());
    }
}
