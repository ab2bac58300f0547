package sectorglass.fat;

import java.util.BitSet;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

/**
 * The entries of a FAT, read page by page when asked for. An entry that one copy does not hold is taken from the other; where only
 * one FAT is active (ExtFlags bit 7), that one alone counts. Not safe for several threads.
 */
final class FatTable {

    /** In place of an entry that no copy holds: its sectors were not read, or lie beyond the table. */
    static final int UNREAD = -1;
    private static final int PAGE = 1 << 16;
    /** Pages kept at most: 128 MiB. */
    private static final int MOST_PAGES = 2048;

    private final VolumeSite site;
    private final Geometry geometry;
    private final int[] copies;
    private final boolean agree;
    private final long entries;
    private final byte[][] pages;
    private final BitSet[] gaps;
    private int held;

    /**
     * The FAT of a volume.
     *
     * @param copies numbers of the copies to use, the trusted one first
     */
    FatTable(VolumeSite site, Geometry geometry, int... copies) {
        this(site, geometry, false, copies);
    }

    private FatTable(VolumeSite site, Geometry geometry, boolean agree, int... copies) {
        this.agree = agree;
        this.site = site;
        this.geometry = geometry;
        this.copies = copies;
        this.entries = geometry.entriesPresent();
        int count = (int) ((geometry.kind().tableBytes(entries) + PAGE - 1) / PAGE);
        this.pages = new byte[count][];
        this.gaps = new BitSet[count];
    }

    /**
     * The table that verdicts are about: the trusted copy alone, since what another copy holds in its place decides nothing about it.
     * Where the bytes that tell which copy is the trusted one were not read, entries that both copies share count.
     */
    static FatTable judged(VolumeSite site, Geometry geometry, BootSector layout) {
        int[] trusted = trusted(site, geometry, layout);
        boolean open = trusted.length > 1 && !site.window(geometry.fatByte(0), 3).isRead(0, 3);
        return open ? new FatTable(site, geometry, true, trusted) : new FatTable(site, geometry, trusted[0]);
    }

    /** The copies that count, the first whose head looks like a FAT in front (as fsck.fat chooses). */
    static int[] trusted(VolumeSite site, Geometry geometry, BootSector layout) {
        if (layout != null && layout.oneActive() && layout.activeFat() < geometry.fats()) {
            return new int[] {layout.activeFat()};
        }
        if (geometry.fats() < 2) {
            return new int[] {0};
        }
        return headless(site, geometry, 0) && !headless(site, geometry, 1) ? new int[] {1, 0} : new int[] {0, 1};
    }

    private static boolean headless(VolumeSite site, Geometry geometry, int copy) {
        var head = site.window(geometry.fatByte(copy), 3);
        return head.isRead(0, 3) && !(Recognition.legalMedia(head.u8(0)) && head.u8(1) == 0xFF);
    }

    /** The geometry that the entries follow. */
    Geometry geometry() {
        return geometry;
    }

    /** Entries that the table has room for and the clusters need; the first two are no clusters. */
    long entries() {
        return entries;
    }

    /** Highest cluster number that has an entry. */
    int lastCluster() {
        return (int) entries - 1;
    }

    /** Whether the number is that of a cluster with an entry. */
    boolean exists(long cluster) {
        return cluster >= 2 && cluster < entries;
    }

    /** The masked entry, or {@link #UNREAD}. */
    int entry(int cluster) {
        if (cluster < 0 || cluster >= entries) {
            return UNREAD;
        }
        long at = geometry.entryByte(cluster);
        int page = (int) (at / PAGE);
        byte[] bytes = pages[page];
        if (bytes == null) {
            bytes = load(page);
        }
        int offset = (int) (at % PAGE);
        int width = geometry.kind() == FatKind.FAT32 ? 4 : 2;
        if (gaps[page] != null && gap(page, offset, width)) {
            return UNREAD;
        }
        int low = bytes[offset] & 0xFF | (bytes[offset + 1] & 0xFF) << 8;
        return switch (geometry.kind()) {
            case FAT12 -> (cluster & 1) == 0 ? low & 0xFFF : low >> 4;
            case FAT16 -> low;
            case FAT32 -> (low | (bytes[offset + 2] & 0xFF) << 16 | bytes[offset + 3] << 24) & 0x0FFFFFFF;
        };
    }

    /** Image bytes of the entry in the trusted copy. */
    ByteRange where(long cluster) {
        return where(cluster, copies[0]);
    }

    /** Image bytes of the entry in a copy. */
    ByteRange where(long cluster, int copy) {
        return new ByteRange(site.firstByte() + geometry.fatByte(copy) + geometry.entryByte(cluster),
                geometry.kind() == FatKind.FAT32 ? 4 : 2);
    }

    /** The sectors that keep an {@link #UNREAD} entry from being known. */
    SectorRanges sectors(long cluster) {
        SectorRanges own = SectorRanges.of(where(cluster).sectors(site.image().sectorSize()));
        return agree ? Gaps.of(site, geometry.fatByte(0), 3).union(own.minus(site.image().inState(
                sectorglass.image.ReadState.READ, own.run(0)))) : own;
    }

    /** The sectors of the trusted copy under this page that no copy holds; entries of whole pages are asked at once. */
    SectorRanges missing() {
        SectorRanges all = SectorRanges.EMPTY;
        for (int copy : copies) {
            SectorRanges here = Gaps.of(site, geometry.fatByte(copy), geometry.kind().tableBytes(entries));
            if (copy == copies[0]) {
                all = here;
                if (all.isEmpty()) {
                    return all;
                }
            }
        }
        return copies.length == 1 || agree ? all : stillMissing(all);
    }

    private SectorRanges stillMissing(SectorRanges first) {
        int size = site.image().sectorSize();
        long apart = (geometry.fatByte(copies[1]) - geometry.fatByte(copies[0])) / size;
        SectorRanges.Builder shifted = new SectorRanges.Builder();
        SectorRanges second = Gaps.of(site, geometry.fatByte(copies[1]), geometry.kind().tableBytes(entries));
        second.forEach(run -> shifted.add(run.first() - apart, run.count()));
        return first.intersect(shifted.build());
    }

    private boolean gap(int page, int offset, int width) {
        int next = gaps[page].nextSetBit(offset);
        return next >= 0 && next < offset + width;
    }

    private byte[] load(int page) {
        if (held >= MOST_PAGES) {
            java.util.Arrays.fill(pages, null);
            java.util.Arrays.fill(gaps, null);
            held = 0;
        }
        long at = (long) page * PAGE;
        int length = (int) Math.min(PAGE, geometry.kind().tableBytes(entries) - at);
        // one byte more: the last 12-bit entry is read as two bytes
        byte[] bytes = new byte[length + 1];
        BitSet gap = fill(bytes, length, at, copies[0]);
        for (int i = 1; i < copies.length && gap != null && !gap.isEmpty(); i++) {
            byte[] other = new byte[length];
            BitSet otherGap = fill(other, length, at, copies[i]);
            for (int b = gap.nextSetBit(0); b >= 0; b = gap.nextSetBit(b + 1)) {
                if (!agree && (otherGap == null || !otherGap.get(b))) {
                    bytes[b] = other[b];
                    gap.clear(b);
                }
            }
        }
        if (agree) {
            gap = disagreeing(bytes, length, at, gap == null ? new BitSet(length) : gap);
        }
        pages[page] = bytes;
        gaps[page] = gap == null || gap.isEmpty() ? null : gap;
        held++;
        return bytes;
    }

    /** Adds the bytes in which the second copy differs or was not read. */
    private BitSet disagreeing(byte[] bytes, int length, long at, BitSet gap) {
        byte[] other = new byte[length];
        BitSet otherGap = fill(other, length, at, copies[1]);
        for (int b = 0; b < length; b++) {
            if (bytes[b] != other[b] || otherGap != null && otherGap.get(b)) {
                gap.set(b);
            }
        }
        return gap;
    }

    /** Reads a piece of a copy; the set has a bit per byte that was not read, or is null. */
    private BitSet fill(byte[] into, int length, long at, int copy) {
        long first = site.firstByte() + geometry.fatByte(copy) + at;
        SectorStates states = site.image().read(first, into, 0, length);
        if (states.isRead(first, length)) {
            return null;
        }
        BitSet gap = new BitSet(length);
        int size = states.sectorSize();
        states.missing(first, length).forEach(run -> gap.set((int) Math.max(0, run.first() * size - first),
                (int) Math.min(length, run.end() * size - first)));
        return gap;
    }
}
