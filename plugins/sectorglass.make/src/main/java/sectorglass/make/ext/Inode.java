package sectorglass.make.ext;

import java.io.IOException;
import java.time.Instant;
import java.util.List;

import sectorglass.make.Medium;
import sectorglass.make.Times;
import sectorglass.make.write.Block;
import sectorglass.make.write.ClusterRun;

/** One inode of 256 bytes with an extent root, while it is put together. */
final class Inode {
    static final int DIRECTORY = 0x41ED;
    static final int FILE = 0x81A4;
    static final int READ_ONLY_FILE = 0x8124;

    private static final int EXTENTS = 0x80000;
    private static final int ROOT = 0x28;
    private static final int ROOT_EXTENTS = 4;
    private static final int LONGEST = 32768;

    private final Block block = new Block(ExtGeometry.INODE_BYTES);
    private final long number;
    private final int seed;

    /**
     * An inode without content.
     *
     * @param seed the checksum of the volume's UUID
     */
    Inode(long number, int seed, int mode, int links, Times times) {
        this.number = number;
        this.seed = seed;
        block.u16(0, mode).u16(0x1A, links).u32(0x20, EXTENTS).u16(0x80, 32);
        time(0x08, 0x8C, times.accessed());
        time(0x0C, 0x84, times.modified());
        time(0x10, 0x88, times.modified());
        time(0x90, 0x94, times.created());
        header(block, ROOT, 0, ROOT_EXTENTS, 0);
    }

    private void time(int at, int extra, Instant instant) {
        long seconds = instant.getEpochSecond();
        block.u32(at, seconds).u32(extra, (long) instant.getNano() << 2 | (seconds - (int) seconds >> 32) & 3);
    }

    private static void header(Block block, int at, int entries, int most, int depth) {
        block.u16(at, 0xF30A).u16(at + 2, entries).u16(at + 4, most).u16(at + 6, depth);
    }

    /** Checksum of everything that belongs to this inode starts here. */
    int ownSeed() {
        return Crc32c.of(Crc32c.of(seed, number), 0L);
    }

    /** How many extents some runs need. */
    static int extents(List<ClusterRun> runs) {
        return runs.stream().mapToInt(run -> (int) ((run.count() + LONGEST - 1) / LONGEST)).sum();
    }

    /** Whether an extra block is needed for the extents. */
    static boolean needsLeaf(List<ClusterRun> runs) {
        return extents(runs) > ROOT_EXTENTS;
    }

    /**
     * Sets size and extents.
     *
     * @param leaf block for the extents where {@link #needsLeaf}, else unused
     */
    void content(Medium medium, int blockBytes, long bytes, List<ClusterRun> runs, long leaf) throws IOException {
        long blocks = runs.stream().mapToLong(ClusterRun::count).sum();
        block.u32(4, bytes).u32(0x6C, bytes >> 32);
        if (!needsLeaf(runs)) {
            header(block, ROOT, extents(runs), ROOT_EXTENTS, 0);
            entries(block, ROOT + 12, runs);
        } else {
            int most = (blockBytes - 12) / 12;
            if (extents(runs) > most) {
                throw new IllegalArgumentException("inode " + number + " has " + extents(runs) + " extents, " + most + " at most");
            }
            Block tree = new Block(blockBytes);
            header(tree, 0, extents(runs), most, 0);
            entries(tree, 12, runs);
            tree.u32(12 + 12 * most, Crc32c.of(ownSeed(), tree.bytes(), 0, 12 + 12 * most));
            medium.write(leaf * blockBytes, tree.bytes());
            header(block, ROOT, 1, ROOT_EXTENTS, 1);
            block.u32(ROOT + 16, leaf).u16(ROOT + 20, (int) (leaf >> 32));
            blocks++;
        }
        long units = blocks * (blockBytes / 512);
        block.u32(0x1C, units).u16(0x74, (int) (units >> 32));
    }

    private static void entries(Block into, int first, List<ClusterRun> runs) {
        int at = first;
        long logical = 0;
        for (ClusterRun run : runs) {
            for (long done = 0; done < run.count(); done += LONGEST, at += 12) {
                int length = (int) Math.min(LONGEST, run.count() - done);
                long start = run.first() + done;
                into.u32(at, logical).u16(at + 4, length).u16(at + 6, (int) (start >> 32)).u32(at + 8, start);
                logical += length;
            }
        }
    }

    /** Marks it deleted: a time, no links. */
    void delete(Instant when) {
        block.u16(0x1A, 0).u32(0x14, when.getEpochSecond());
    }

    byte[] bytes() {
        block.u16(0x7C, 0).u16(0x82, 0);
        int crc = Crc32c.of(ownSeed(), block.bytes());
        return block.u16(0x7C, crc).u16(0x82, crc >>> 16).bytes();
    }
}
