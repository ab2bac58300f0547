package sectorglass.apple;

import java.util.EnumMap;
import java.util.Map;

import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorRange;
import sectorglass.image.Window;
import sectorglass.verify.Outcome;

/**
 * Where everything lies on an HFS+ volume, by the header that is believed. Trees are opened when first asked for. Source: Apple TN1150 by
 * way of hfs_format.h (xnu).
 */
final class HfsLayout {
    /** Byte of the allocation file's fork in the header. */
    static final int ALLOCATION = 112;
    /** Byte of the startup file's fork in the header. */
    static final int STARTUP = 432;

    final VolumeSite site;
    final HfsPlus.Place place;
    /** The header, read whole. */
    final Window header;
    final long blockSize;
    final long blocks;
    private final Map<HfsTree.Kind, HfsTree> trees = new EnumMap<>(HfsTree.Kind.class);
    private HfsOverflow overflow;
    private HfsJournal journal;

    private HfsLayout(VolumeSite site, HfsPlus.Place place, Window header) {
        this.site = site;
        this.place = place;
        this.header = header;
        this.blockSize = header.u32be(40);
        this.blocks = header.u32be(44);
    }

    /** The layout, or null where the header was not read or makes no sense. */
    static HfsLayout of(VolumeSite site, HfsPlus.Place place) {
        Window header = site.window(place.start() + place.header(), 512);
        return header.isRead(0, 512) && HfsPlus.plausible(header) ? new HfsLayout(site, place, header) : null;
    }

    /** Image byte of block 0. */
    long firstByte() {
        return site.firstByte() + place.start();
    }

    /** Image bytes of blocks. */
    ByteRange range(long block, long count) {
        return new ByteRange(firstByte() + block * blockSize, count * blockSize);
    }

    /** Sectors of blocks. */
    SectorRange sectors(long block, long count) {
        return range(block, count).sectors(site.image().sectorSize());
    }

    /** Bytes of a fork. */
    Window window(HfsFork fork, long at, int length) {
        return fork.window(site, place.start(), at, length);
    }

    /** Extents beyond the eighth. */
    synchronized HfsOverflow overflow() {
        if (overflow == null) {
            overflow = new HfsOverflow(this);
        }
        return overflow;
    }

    /** A tree, or null where nothing of it can be made out. */
    synchronized HfsTree tree(HfsTree.Kind kind) {
        if (!trees.containsKey(kind)) {
            trees.put(kind, VolumeFacts.known(() -> HfsTree.open(this, kind)));
        }
        return trees.get(kind);
    }

    /** The fork of a tree's file. */
    HfsFork fork(HfsTree.Kind kind) {
        return kind == HfsTree.Kind.EXTENTS ? HfsFork.read(header, kind.header, blockSize) : overflow().fork(header, kind.header, kind.id, 0);
    }

    /** The fork of the allocation file. */
    HfsFork allocation() {
        return overflow().fork(header, ALLOCATION, 6, 0);
    }

    /** The journal, or null where the volume has none. */
    synchronized HfsJournal journal() {
        if (journal == null && (header.u32be(4) & 0x2000) != 0) {
            journal = new HfsJournal(this);
        }
        return journal;
    }

    /** The outcome of a test that only holds on a volume whose journal is empty: transactions that wait may still change what failed. */
    Outcome settled(boolean holds, Object stored, Object computed) {
        HfsJournal log = journal();
        return !holds && log != null && Boolean.TRUE.equals(log.pending()) ? Outcome.undecided("the journal must be replayed first")
                : Outcome.test(holds, stored, computed);
    }
}
