package sectorglass.fat;

import java.util.BitSet;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Compares the FAT copies over the entries in use. Left out where only one FAT is active (Microsoft FAT specification, BPB_ExtFlags). */
final class FatDifferences {

    private static final int PIECE = 1 << 16;
    private static final int MOST_KEPT = 1 << 20;

    private final VolumeSite site;
    private final Geometry geometry;
    private final BitSet odd = new BitSet();
    private SectorRanges missing = SectorRanges.EMPTY;
    private long count;
    private int firstCopy = -1;
    private long firstCluster = -1;
    private Mark mark;

    FatDifferences(VolumeSite site, Geometry geometry) {
        this.site = site;
        this.geometry = geometry;
    }

    /** The verdict if the copies differ in this entry, else null. */
    Mark causeAt(int cluster) {
        return odd.get(cluster) ? mark : null;
    }

    /** The verdict, or null where the copies were not compared. */
    Mark mark() {
        return mark;
    }

    void check(Checks out, Progress progress) {
        long bytes = geometry.kind().tableBytes(geometry.entriesPresent());
        for (int copy = 1; copy < geometry.fats(); copy++) {
            for (long at = 0; at < bytes; at += PIECE) {
                progress.checkCancelled();
                compare(copy, at, (int) Math.min(PIECE, bytes - at));
            }
        }
        ByteRange fats = new ByteRange(site.firstByte() + geometry.fatByte(0), geometry.fats() * geometry.fatBytes());
        FatTable none = new FatTable(site, geometry, 0);
        mark = out.in(fats).report("fat.copies-equal", fats, count > 0 ? failed(none)
                : missing.isEmpty() ? Outcome.passed() : Outcome.unread(missing));
    }

    private Outcome failed(FatTable first) {
        FatTable other = new FatTable(site, geometry, firstCopy);
        FatKind kind = geometry.kind();
        return Outcome.failed(kind.hex(first.entry((int) firstCluster)), kind.hex(other.entry((int) firstCluster)))
                .with("entries", count).with("cluster", firstCluster).at(first.where(firstCluster, firstCopy));
    }

    private void compare(int copy, long at, int length) {
        byte[] one = new byte[length];
        byte[] two = new byte[length];
        SectorStates states = site.image().read(site.firstByte() + geometry.fatByte(0) + at, one, 0, length);
        SectorStates otherStates = site.image().read(site.firstByte() + geometry.fatByte(copy) + at, two, 0, length);
        long start = site.firstByte() + geometry.fatByte(0) + at;
        long otherStart = site.firstByte() + geometry.fatByte(copy) + at;
        boolean all = states.isRead(start, length) && otherStates.isRead(otherStart, length);
        if (!all) {
            missing = missing.union(states.missing(start, length)).union(otherStates.missing(otherStart, length));
        }
        int from = java.util.Arrays.mismatch(one, two);
        if (from < 0) {
            return;
        }
        long lastEntry = -1;
        for (int i = from; i < length; i++) {
            if (one[i] != two[i] && (all || states.isRead(start + i, 1) && otherStates.isRead(otherStart + i, 1))) {
                lastEntry = differs(copy, (at + i) * 8, one[i] ^ two[i], lastEntry);
            }
        }
    }

    /** Counts the entries that hold differing bits; upper four bits of 32 do not count. @return the last of them */
    private long differs(int copy, long bit, int bits, long lastEntry) {
        int width = geometry.kind().bits();
        long entry = (bit + Integer.numberOfTrailingZeros(bits & 0xFF)) / width;
        long last = (bit + 31 - Integer.numberOfLeadingZeros(bits & 0xFF)) / width;
        boolean reservedOnly = width == 32 && bit % 32 == 24 && (bits & 0x0F) == 0;
        if (reservedOnly) {
            return lastEntry;
        }
        for (long e = entry; e <= last; e++) {
            if (e != lastEntry && e < geometry.entriesPresent()) {
                count++;
                if (firstCluster < 0) {
                    firstCluster = e;
                    firstCopy = copy;
                }
                if (e < MOST_KEPT || odd.cardinality() == 0) {
                    odd.set((int) e);
                }
            }
        }
        return last;
    }
}
