package sectorglass.recovery;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import sectorglass.disk.Disk;
import sectorglass.disk.SelfCheck;
import sectorglass.disk.Structure;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRanges;
import sectorglass.recovery.MergePlan.Choice;
import sectorglass.recovery.MergePlan.Reason;

/**
 * Judges disputed sectors by the checks that the structures on them carry: of each structure that a disputed sector belongs to, every copy's bytes are
 * checked, what is not disputed of it taken from the merged view. A copy whose structures hold where another's fail gives the sector. Bounded in time.
 */
final class FullJudge {
    private static final long MOST_NANOS = 20_000_000_000L;
    /** Entries of a directory are this long at least: nothing smaller carries a check. */
    private static final int STEP = 32;
    private static final int MOST_KEPT = 100_000;
    private static final int LARGEST = 1 << 16;

    private final List<? extends SectorImage> images;
    private final List<Disk> disks;
    private final List<SectorRanges> readers;
    private final List<PreferredCopy> views = new ArrayList<>();
    private final int sectorSize;
    /** What was found of a structure, by its place: per copy whether it holds, null where that cannot be told. */
    private final Map<ByteRange, Boolean[]> known = new HashMap<>();
    private long decided;
    private long hold;
    private long fail;
    private long without;
    private long left;

    private FullJudge(List<? extends SectorImage> images, List<Disk> disks, List<SectorRanges> readers, MergePlan plan) {
        this.images = images;
        this.disks = disks;
        this.readers = readers;
        this.sectorSize = images.get(0).sectorSize();
        MergedImage merged = new MergedImage(images, plan);
        SectorRanges disputed = plan.disputed();
        for (int i = 0; i < images.size(); i++) {
            views.add(new PreferredCopy(merged, images.get(i), disputed.intersect(readers.get(i))));
        }
    }

    /** The plan with what these checks decide, and what became of the disputed sectors. */
    record Judged(MergePlan plan, Disputes disputes) { }

    static Judged of(MergePlan plan, List<? extends SectorImage> images, List<Disk> disks, List<SectorRanges> readers, Progress progress) {
        return new FullJudge(images, disks, readers, plan).run(plan, progress);
    }

    private Judged run(MergePlan plan, Progress progress) {
        long end = System.nanoTime() + MOST_NANOS;
        List<Choice> choices = new ArrayList<>();
        for (Choice choice : plan.choices()) {
            if (choice.why() != Reason.DISPUTED) {
                choices.add(choice);
                continue;
            }
            for (long lba = choice.range().first(); lba < choice.range().end(); lba++) {
                progress.checkCancelled();
                boolean late = System.nanoTime() > end;
                int copy = late ? -1 : sound(lba);
                left += late ? 1 : 0;
                MergePlan.append(choices, lba, copy < 0 ? choice.copy() : copy, copy < 0 ? Reason.DISPUTED : Reason.PASSES_FULL_CHECKS);
            }
        }
        return new Judged(new MergePlan(List.copyOf(choices)), new Disputes(decided, hold, fail, without, left));
    }

    /** The first copy whose structures on a sector hold where those of another fail; -1 where nothing decides. */
    private int sound(long lba) {
        boolean[] holds = new boolean[images.size()];
        boolean[] fails = new boolean[images.size()];
        boolean any = false;
        for (long at = lba * sectorSize; at < (lba + 1) * sectorSize;) {
            Boolean[] verdicts = null;
            boolean there = false;
            long next = at + STEP;
            for (Disk disk : disks) {
                Structure structure = disk.structureAt(at).orElse(null);
                there |= structure != null;
                SelfCheck check = structure == null ? null : disk.volumeAt(at).flatMap(v -> v.capability(SelfCheck.class)).orElse(null);
                Boolean[] found = check == null ? null : verdicts(structure, check);
                if (found != null) {
                    verdicts = found;
                    next = Math.max(next, structure.range().end());
                    break;
                }
            }
            for (int i = 0; verdicts != null && i < verdicts.length; i++) {
                if (verdicts[i] != null && readers.get(i).contains(lba)) {
                    any = true;
                    holds[i] |= verdicts[i];
                    fails[i] |= !verdicts[i];
                }
            }
            at = there ? next : (lba + 1) * sectorSize; // content of a file, or free space
        }
        return decide(lba, holds, fails, any);
    }

    private int decide(long lba, boolean[] holds, boolean[] fails, boolean any) {
        int first = -1;
        boolean failing = false;
        boolean one = true;
        for (int i = 0; i < holds.length; i++) {
            failing |= fails[i];
            if (holds[i] && !fails[i]) {
                one &= first < 0 || same(lba, first, i);
                first = first < 0 ? i : first;
            }
        }
        if (first >= 0 && failing && one) {
            decided++;
            return first;
        }
        hold += any && !failing || first >= 0 ? 1 : 0;
        fail += any && failing && first < 0 ? 1 : 0;
        without += any ? 0 : 1;
        return -1;
    }

    private boolean same(long lba, int one, int other) {
        return java.util.Arrays.equals(images.get(one).sector(lba).raw(0, sectorSize), images.get(other).sector(lba).raw(0, sectorSize));
    }

    /** Whether the copies hold different bytes there: a structure beside the disputed one says nothing of it. */
    private boolean differs(ByteRange range) {
        int length = (int) Math.min(LARGEST, range.length());
        byte[] first = views.get(0).window(range.start(), length).raw(0, length);
        return views.stream().skip(1).anyMatch(view -> !java.util.Arrays.equals(first, view.window(range.start(), length).raw(0, length)));
    }

    /** Per copy whether the structure holds; null where that can be told of none, or all copies hold the same bytes of it. */
    private Boolean[] verdicts(Structure structure, SelfCheck check) {
        Boolean[] found = known.get(structure.range());
        if (found == null) {
            found = new Boolean[views.size()];
            boolean differing = differs(structure.range());
            for (int i = 0; i < found.length && differing; i++) {
                Optional<Boolean> held = check.holds(structure, views.get(i));
                found[i] = held.orElse(null);
            }
            if (known.size() < MOST_KEPT) {
                known.put(structure.range(), found);
            }
        }
        boolean told = false;
        for (Boolean one : found) {
            told |= one != null;
        }
        return told ? found : null;
    }
}
