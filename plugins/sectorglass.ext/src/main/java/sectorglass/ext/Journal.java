package sectorglass.ext;

import sectorglass.image.Window;

/**
 * The journal of a volume as its superblock describes it; all numbers are big endian. Sources: Linux kernel documentation, filesystems/ext4,
 * journal (jbd2); sizes of tags as in fs/jbd2/journal.c, journal_tag_bytes (from memory).
 *
 * @param map where its blocks stand
 * @param length blocks of the log, those for fast commits left out
 * @param first first block of the log
 * @param sequence of the first transaction that is not written back yet
 * @param start block of that transaction; 0 where none waits
 * @param features incompatible features
 * @param seed start value of its checksums
 */
record Journal(BlockMap map, long length, long first, long sequence, long start, long features, int seed) {
    static final long MAGIC = 0xC03B3998L;
    static final int DESCRIPTOR = 1;
    static final int COMMIT = 2;
    static final int REVOCATION = 5;
    private static final int WIDE = 2;
    private static final int SUMS_2 = 8;
    private static final int SUMS_3 = 0x10;
    private static final int FAST_COMMIT = 0x20;
    private static final int FAST_COMMIT_BLOCKS = 256;

    /** Reads the superblock; its first 256 bytes must have been read. */
    static Journal of(BlockMap map, Window w) {
        long features = w.u32be(0x28);
        long fast = (features & FAST_COMMIT) == 0 ? 0 : w.u32be(0x54) == 0 ? FAST_COMMIT_BLOCKS : w.u32be(0x54);
        return new Journal(map, Math.max(0, w.u32be(0x10) - fast), w.u32be(0x14), w.u32be(0x18), w.u32be(0x1C), features,
                Crc.raw(Crc.START, w.bytes(0x30, 16)));
    }

    /** The journal of a volume, or null where it has none inside or its superblock was not read. */
    static Journal find(Layout layout, Groups groups) {
        BlockMap map = JournalChecks.map(layout, groups);
        if (map == null) {
            return null;
        }
        Window w = layout.read(map.runs.get(0).physical());
        return w.isRead(0, 1024) && w.u32be(0) == MAGIC ? of(map, w) : null;
    }

    boolean sums() {
        return (features & (SUMS_2 | SUMS_3)) != 0;
    }

    boolean wideSums() {
        return (features & SUMS_3) != 0;
    }

    boolean wide() {
        return (features & WIDE) != 0;
    }

    /** Bytes of a tag, without an identity that may follow. */
    int tagSize() {
        if (wideSums()) {
            return 16;
        }
        return 8 + ((features & SUMS_2) != 0 ? 2 : 0) + (wide() ? 4 : 0);
    }

    /** Block of the volume that holds a block of the journal, or -1 where the map has none. */
    long physical(long logical) {
        for (BlockMap.Run run : map.runs) {
            if (logical >= run.logical() && logical < run.logical() + run.count()) {
                return run.physical() + logical - run.logical();
            }
        }
        return -1;
    }

    /** The block of the log after another; the log is a ring. */
    long next(long logical) {
        return logical + 1 < length ? logical + 1 : first;
    }
}
