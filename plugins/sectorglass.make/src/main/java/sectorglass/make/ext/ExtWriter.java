package sectorglass.make.ext;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

import sectorglass.make.Medium;
import sectorglass.make.SplitMix64;
import sectorglass.make.write.Block;
import sectorglass.make.write.ClusterRun;
import sectorglass.make.write.ClusterSpace;
import sectorglass.make.write.VolumeTarget;

/** Writes an ext4 volume with extents and metadata checksums, without a journal. */
public final class ExtWriter {
    private static final int SUPERBLOCK = 1024;
    /** File type in directory entries, extents. */
    private static final int INCOMPATIBLE = 0x02 | 0x40;
    /** Sparse superblocks, large files, many links, larger inodes, checksums. */
    private static final int READ_ONLY_COMPATIBLE = 0x01 | 0x02 | 0x20 | 0x40 | 0x400;

    private final VolumeTarget target;
    private final Medium medium;
    private final ExtGeometry geometry;
    private final ClusterSpace space;
    private final byte[] uuid = new byte[16];
    private final int seed;
    private final byte[] descriptors;
    private long freeBlocks;
    private long freeInodes;

    /** For one volume. */
    public ExtWriter(VolumeTarget target) {
        this.target = target;
        medium = target.medium();
        geometry = new ExtGeometry(target, ExtTree.count(target.volume().root()));
        space = new ClusterSpace(0, geometry.blocks());
        new SplitMix64(SplitMix64.derive(target.volume().serial(), "uuid")).fill(uuid, 0, 16);
        uuid[6] = (byte) (uuid[6] & 0x0F | 0x40);
        uuid[8] = (byte) (uuid[8] & 0x3F | 0x80);
        seed = Crc32c.of(-1, uuid);
        descriptors = new byte[geometry.descriptorBlocks() * geometry.blockBytes()];
    }

    /** Writes everything. */
    public void write() throws IOException {
        if (geometry.firstBlock() > 0) {
            space.reserve(0, geometry.firstBlock());
        }
        for (int group = 0; group < geometry.groups(); group++) {
            space.reserve(geometry.groupStart(group), geometry.dataStart(group) - geometry.groupStart(group));
        }
        ExtTree tree = new ExtTree(target, geometry, space, seed);
        tree.write(target.volume().root());
        tree.deletedRuns().forEach(space::release);
        reservedInodes();
        ClusterSpace inodes = new ClusterSpace(1, (long) geometry.groups() * geometry.inodesPerGroup() + 1);
        inodes.reserve(1, tree.nextInode() - 1);
        tree.deletedInodes().forEach(inode -> inodes.release(new ClusterRun(inode, 1)));
        groups(inodes.runs(), tree.directories());
        for (int group = 0; group < geometry.groups(); group++) {
            if (ExtGeometry.hasSuperblock(group)) {
                long start = geometry.groupStart(group);
                long at = start * geometry.blockBytes() + (group == 0 && geometry.firstBlock() == 0 ? SUPERBLOCK : 0);
                medium.write(at, superblock(group));
                medium.write((start + 1) * geometry.blockBytes(), descriptors);
            }
        }
        notes();
    }

    private void notes() {
        target.note("superblock", SUPERBLOCK);
        target.note("descriptors", (geometry.firstBlock() + 1) * geometry.blockBytes());
        target.note("block bitmap", geometry.blockBitmap(0) * geometry.blockBytes());
        target.note("inode bitmap", geometry.inodeBitmap(0) * geometry.blockBytes());
        target.note("inodes", geometry.inodeTable(0) * geometry.blockBytes());
        if (geometry.groups() > 1) {
            target.note("backup superblock", geometry.groupStart(1) * geometry.blockBytes());
        }
    }

    /** Inodes 1 and 3 to 10 are empty but stamped, so that their checksums hold. */
    private void reservedInodes() throws IOException {
        for (int number = 1; number < 11; number++) {
            if (number != 2) {
                Block block = new Block(ExtGeometry.INODE_BYTES);
                int crc = Crc32c.of(Crc32c.of(Crc32c.of(seed, (long) number), 0L), block.bytes());
                medium.write(geometry.inodeByte(number), block.u16(0x7C, crc).bytes());
            }
        }
    }

    private void groups(List<ClusterRun> usedInodes, int[] directories) throws IOException {
        Block table = new Block(descriptors);
        List<ClusterRun> usedBlocks = space.runs();
        for (int group = 0; group < geometry.groups(); group++) {
            long start = geometry.groupStart(group);
            byte[] blocks = bits(usedBlocks, start, geometry.groupEnd(group), geometry.blockBytes());
            long firstInode = 1L + (long) group * geometry.inodesPerGroup();
            byte[] inodes = bits(usedInodes, firstInode, firstInode + geometry.inodesPerGroup(), geometry.blockBytes());
            medium.write(geometry.blockBitmap(group) * geometry.blockBytes(), blocks);
            medium.write(geometry.inodeBitmap(group) * geometry.blockBytes(), inodes);
            int free = zeros(blocks);
            int unused = zeros(inodes);
            freeBlocks += free;
            freeInodes += unused;
            int at = group * ExtGeometry.DESCRIPTOR_BYTES;
            table.u32(at, geometry.blockBitmap(group)).u32(at + 4, geometry.inodeBitmap(group));
            table.u32(at + 8, geometry.inodeTable(group)).u16(at + 12, free).u16(at + 14, unused);
            table.u16(at + 16, directories[group]).u16(at + 18, 4);
            table.u16(at + 24, Crc32c.of(seed, blocks, 0, (int) geometry.blocksPerGroup() / 8));
            table.u16(at + 26, Crc32c.of(seed, inodes, 0, geometry.inodesPerGroup() / 8));
            int crc = Crc32c.of(Crc32c.of(seed, (long) group), descriptors, at, ExtGeometry.DESCRIPTOR_BYTES);
            table.u16(at + 30, crc);
        }
    }

    /** A block of bits, set for the runs and for everything from {@code end} on. */
    private static byte[] bits(List<ClusterRun> runs, long start, long end, int bytes) {
        byte[] bits = new byte[bytes];
        for (ClusterRun run : runs) {
            set(bits, Math.max(run.first(), start) - start, Math.min(run.end(), end) - start);
        }
        set(bits, end - start, 8L * bytes);
        return bits;
    }

    private static void set(byte[] bits, long from, long to) {
        for (long bit = from; bit < to; bit++) {
            bits[(int) (bit / 8)] |= (byte) (1 << bit % 8);
        }
    }

    private static int zeros(byte[] bits) {
        int zeros = 0;
        for (byte b : bits) {
            zeros += 8 - Integer.bitCount(b & 0xFF);
        }
        return zeros;
    }

    private byte[] superblock(int group) {
        int shift = Integer.numberOfTrailingZeros(geometry.blockBytes()) - 10;
        long time = target.volume().root().times().modified().getEpochSecond();
        byte[] label = target.volume().label().getBytes(StandardCharsets.UTF_8);
        if (label.length > 16) {
            throw new IllegalArgumentException("ext4 stores 16 bytes of a label: " + target.volume().label());
        }
        Block block = new Block(SUPERBLOCK);
        block.u32(0, (long) geometry.groups() * geometry.inodesPerGroup()).u32(4, geometry.blocks()).u32(0x0C, freeBlocks);
        block.u32(0x10, freeInodes).u32(0x14, geometry.firstBlock()).u32(0x18, shift).u32(0x1C, shift);
        block.u32(0x20, geometry.blocksPerGroup()).u32(0x24, geometry.blocksPerGroup()).u32(0x28, geometry.inodesPerGroup());
        block.u32(0x30, time).u16(0x36, 0xFFFF).u16(0x38, 0xEF53).u16(0x3A, 1).u16(0x3C, 1).u32(0x40, time);
        block.u32(0x4C, 1).u32(0x54, 11).u16(0x58, ExtGeometry.INODE_BYTES).u16(0x5A, group);
        block.u32(0x60, INCOMPATIBLE).u32(0x64, READ_ONLY_COMPATIBLE).put(0x68, uuid).put(0x78, label);
        block.u32(0x108, time).u16(0x15C, 32).u16(0x15E, 32).u8(0x175, 1);
        return block.u32(0x3FC, Crc32c.of(-1, block.bytes(), 0, 0x3FC)).bytes();
    }
}
