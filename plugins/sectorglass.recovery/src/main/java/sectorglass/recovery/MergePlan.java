package sectorglass.recovery;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.Severity;
import sectorglass.verify.Verdict;

/**
 * Which copy each sector is taken from. A sector read in one copy comes from there; one that all copies agree on from the first that
 * read it; a disputed one from the copy whose structures pass where others fail, else from the first copy, and stays listed as
 * disputed.
 *
 * @param choices in address order, without gaps between read sectors
 */
public record MergePlan(List<Choice> choices) {

    /**
     * A run of sectors and its source.
     *
     * @param range the sectors
     * @param copy index of the copy, from 0; -1 where no copy read them
     * @param why the reason, for the log
     */
    public record Choice(SectorRange range, int copy, Reason why) { }

    /** Why a copy was chosen. */
    public enum Reason {
        /** All copies that read it agree. */
        AGREED("agreed"),
        /** Only this copy read it. */
        ONLY_COPY("only copy"),
        /** The copies differ; the structure's own checks pass in this copy and fail in another. */
        PASSES_CHECKS("passes the structure's checks"),
        /** The copies differ; the checks that the structure itself carries hold in this copy and fail in another. */
        PASSES_FULL_CHECKS("passes the structure's full checks"),
        /** The copies differ and nothing decides; taken from the first copy. */
        DISPUTED("disputed, first copy taken"),
        /** No copy read it. */
        NOT_READ("not read in any copy");

        private final String word;

        Reason(String word) {
            this.word = word;
        }

        /** The words in the log. */
        public String word() {
            return word;
        }
    }

    /**
     * Makes the plan.
     *
     * @param comparison of the copies
     * @param firstReader per copy the sectors it read, to find the first reader of agreed ones
     * @param findings per copy, in the same order; may be empty where no structures are known
     */
    public static MergePlan of(CopyComparison comparison, List<SectorRanges> firstReader, List<Findings> findings, int sectorSize) {
        List<Choice> all = new ArrayList<>();
        SectorRanges left = comparison.agree();
        for (int i = 0; i < firstReader.size() && !left.isEmpty(); i++) {
            SectorRanges here = left.intersect(firstReader.get(i));
            add(all, here, i, Reason.AGREED);
            left = left.minus(here);
        }
        for (int i = 0; i < comparison.copies(); i++) {
            add(all, comparison.onlyIn().get(i), i, Reason.ONLY_COPY);
        }
        for (SectorRange run : comparison.differ()) {
            disputed(all, run, firstReader, findings, sectorSize);
        }
        add(all, comparison.nowhere(), -1, Reason.NOT_READ);
        all.sort(Comparator.comparing(Choice::range));
        return new MergePlan(List.copyOf(all));
    }

    private static void add(List<Choice> all, SectorRanges ranges, int copy, Reason why) {
        for (SectorRange range : ranges) {
            all.add(new Choice(range, copy, why));
        }
    }

    private static void disputed(List<Choice> all, SectorRange run, List<SectorRanges> readers, List<Findings> findings, int sectorSize) {
        for (long lba = run.first(); lba < run.end(); lba++) {
            int sound = -1;
            int sounds = 0;
            boolean failing = false;
            for (int i = 0; i < findings.size(); i++) {
                if (!readers.get(i).contains(lba)) {
                    continue;
                }
                if (fails(findings.get(i), lba, sectorSize)) {
                    failing = true;
                } else {
                    sounds++;
                    sound = sound < 0 ? i : sound;
                }
            }
            boolean decided = failing && sounds > 0;
            int copy = decided ? sound : firstOf(readers, lba);
            Reason why = decided ? Reason.PASSES_CHECKS : Reason.DISPUTED;
            append(all, lba, copy, why);
        }
    }

    /** Adds a sector, joined to the run before it where both come from one copy for one reason. */
    static void append(List<Choice> all, long lba, int copy, Reason why) {
        int last = all.size() - 1;
        if (last >= 0 && all.get(last).copy() == copy && all.get(last).why() == why && all.get(last).range().end() == lba) {
            SectorRange before = all.get(last).range();
            all.set(last, new Choice(new SectorRange(before.first(), before.count() + 1), copy, why));
        } else {
            all.add(new Choice(new SectorRange(lba, 1), copy, why));
        }
    }

    private static int firstOf(List<SectorRanges> readers, long lba) {
        for (int i = 0; i < readers.size(); i++) {
            if (readers.get(i).contains(lba)) {
                return i;
            }
        }
        return -1;
    }

    private static boolean fails(Findings findings, long lba, int sectorSize) {
        for (Finding finding : findings.all()) {
            if (finding.verdict() == Verdict.FAILED && finding.severity() != Severity.COSMETIC
                    && (finding.where().sectors(sectorSize).contains(lba) || finding.structure().sectors(sectorSize).contains(lba))) {
                return true;
            }
        }
        return false;
    }

    /** Sectors whose bytes two copies disagree on and no check decides. */
    public SectorRanges disputed() {
        return ranges(Reason.DISPUTED);
    }

    /** Sectors taken for a reason. */
    public SectorRanges ranges(Reason why) {
        return SectorRanges.of(choices.stream().filter(c -> c.why() == why).map(Choice::range).toList());
    }
}
