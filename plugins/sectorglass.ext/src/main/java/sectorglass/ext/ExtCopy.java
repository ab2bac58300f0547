package sectorglass.ext;

import java.util.Arrays;

import sectorglass.disk.copy.CopyTarget;
import sectorglass.disk.copy.Disguise;
import sectorglass.disk.copy.StructureCopy;
import sectorglass.image.Progress;
import sectorglass.image.Window;

/**
 * The structures of an ext volume without names and content: superblocks, descriptors, bitmaps, inode tables, folders in use, nodes of extent trees and
 * blocks of classic maps. Journal, extended attributes and everything else stay out. The UUID stays, since it begins every checksum.
 */
final class ExtCopy implements StructureCopy {
    private static final int CHUNK = 1 << 20;
    private static final int MOST_COPIES = 64;

    private final Layout layout;
    private final Groups groups;
    private FolderDisguise folders;

    ExtCopy(Layout layout, Groups groups) {
        this.layout = layout;
        this.groups = groups;
    }

    private interface Use {
        void table(Window piece, long firstInode);
    }

    /** All inode tables, piece by piece, whole sectors. */
    private void tables(Progress progress, Use use) {
        int size = layout.sb.inodeSize();
        for (int g = 0; g < layout.groups; g++) {
            progress.checkCancelled();
            progress.at("inode tables", g, layout.groups);
            Group group = groups.get(g);
            if (group == null || !groups.tableInside(group) || group.inodesUninitialised(layout.sb)) {
                continue;
            }
            long all = layout.inodeTableBlocks() * layout.blockSize;
            for (long at = 0; at < all; at += CHUNK) {
                Window w = layout.site.window(group.inodeTable() * layout.blockSize + at, (int) Math.min(CHUNK, all - at));
                use.table(w, g * layout.sb.inodesPerGroup() + at / size + 1);
            }
        }
    }

    private boolean whole(Window w, int at) {
        return at + layout.sb.inodeSize() <= w.length() && w.isRead(at, layout.sb.inodeSize()) && !w.filled(at, 2, 0);
    }

    @Override
    public void learn(Disguise disguise, Progress progress) {
        folders = new FolderDisguise(layout, disguise.ofBytes());
        tables(progress, (w, first) -> {
            for (int at = 0; at + layout.sb.inodeSize() <= w.length(); at += layout.sb.inodeSize()) {
                if (whole(w, at)) {
                    Inode inode = new Inode(first + at / layout.sb.inodeSize(), w.sub(at, layout.sb.inodeSize()));
                    if (folder(inode)) {
                        Maps.of(layout, inode).runs.forEach(run -> folders.learn(run));
                    }
                }
            }
        });
    }

    private boolean folder(Inode inode) {
        return inode.type() == Inode.DIRECTORY && inode.links() > 0 && !inode.has(Inode.INLINE) && !inode.has(Inode.ENCRYPTED);
    }

    @Override
    public void copy(CopyTarget to, Disguise disguise, Progress progress) {
        if (folders == null) {
            folders = new FolderDisguise(layout, disguise.ofBytes());
        }
        superblock(to, 1024, disguise);
        for (long group : layout.backupGroups(MOST_COPIES)) {
            superblock(to, layout.first(group) * layout.blockSize, disguise);
        }
        for (long index = 0; index < layout.tableBlocks() && index * layout.descriptorsPerBlock() < layout.groups; index++) {
            block(to, layout.tableBlock(index));
            for (long copy : layout.tableCopies(index, MOST_COPIES)) {
                block(to, copy);
            }
        }
        for (int g = 0; g < layout.groups; g++) {
            Group group = groups.get(g);
            if (group != null && believed(group)) {
                block(to, group.blockBitmap());
                block(to, group.inodeBitmap());
            }
        }
        tables(progress, (w, first) -> {
            if (believed(w, first)) {
                inodes(to, w, first, disguise);
            }
        });
    }

    /** Whether what a descriptor points to is a bitmap and not content: its checksum holds, or that of its bitmap, or without checksums, it lies in its group. */
    private boolean believed(Group group) {
        if (!layout.inVolume(group.blockBitmap()) || !layout.inVolume(group.inodeBitmap())) {
            return false;
        }
        if (!layout.sb.descriptorSums()) {
            return layout.groupOf(group.blockBitmap()) == group.number() && layout.groupOf(group.inodeBitmap()) == group.number();
        }
        int per = layout.descriptorsPerBlock();
        Window table = layout.read(layout.tableBlock(group.number() / per));
        int at = (int) (group.number() % per) * layout.sb.descSize();
        if (table.isRead(at, layout.sb.descSize()) && Group.sum(layout, group.number(), table, at) == table.u16le(at + 0x1E)) {
            return true;
        }
        Window bits = layout.read(group.blockBitmap());
        int bytes = (int) (layout.sb.clustersPerGroup() / 8);
        return layout.sb.sums() && bytes <= bits.length() && bits.isRead(0, bits.length())
                && (Crc.raw(layout.seed, bits.raw(0, bytes)) & 0xFFFF) == (group.blockSum() & 0xFFFF);
    }

    /** Whether a piece of a table holds inodes and not content: most of what is not zero there has its checksum, or without checksums, a known type. */
    private boolean believed(Window w, long first) {
        int size = layout.sb.inodeSize();
        int used = 0;
        int sound = 0;
        for (int at = 0; at + size <= w.length(); at += size) {
            if (whole(w, at)) {
                Inode inode = new Inode(first + at / size, w.sub(at, size));
                used++;
                sound += layout.sb.sums() ? inode.sumHolds(layout.seed) ? 1 : 0 : inode.typeKnown() && inode.extraSane() ? 1 : 0;
            }
        }
        return layout.sb.sums() ? 2 * sound >= used : 10 * sound >= 9 * used;
    }

    private void block(CopyTarget to, long number) {
        if (layout.inVolume(number) || number == 0) {
            Window w = layout.read(number);
            if (w.start() % to.source().sectorSize() == 0 && layout.blockSize % to.source().sectorSize() == 0) {
                to.put(w, w.raw(0, w.length()));
            }
        }
    }

    private void superblock(CopyTarget to, long at, Disguise disguise) {
        int size = to.source().sectorSize();
        int skip = (int) (at % size);
        Window w = layout.site.window(at - skip, (skip + Superblock.LENGTH + size - 1) / size * size);
        byte[] bytes = w.raw(0, w.length());
        Arrays.fill(bytes, 0, skip, (byte) 0);
        Arrays.fill(bytes, skip + Superblock.LENGTH, bytes.length, (byte) 0);
        int before = Crc.raw(Crc.START, bytes, skip, 0x3FC);
        text(bytes, skip + 0x78, 16, disguise);
        text(bytes, skip + 0x88, 64, disguise);
        text(bytes, skip + 0x200, 64, disguise);
        if (layout.sb.sums()) {
            FolderDisguise.xor(bytes, skip + 0x3FC, before ^ Crc.raw(Crc.START, bytes, skip, 0x3FC));
        }
        to.put(w, bytes);
    }

    /** A text that ends with zeros, by an invented one of the same length. */
    private static void text(byte[] bytes, int at, int room, Disguise disguise) {
        String old = new String(bytes, at, room, java.nio.charset.StandardCharsets.ISO_8859_1);
        int end = old.indexOf(0);
        String label = end < 0 ? old : old.substring(0, end);
        byte[] fresh = disguise.label(label).getBytes(java.nio.charset.StandardCharsets.ISO_8859_1);
        Arrays.fill(bytes, at, at + room, (byte) 0);
        System.arraycopy(fresh, 0, bytes, at, Math.min(room, fresh.length));
    }

    private void inodes(CopyTarget to, Window w, long first, Disguise disguise) {
        int size = layout.sb.inodeSize();
        byte[] bytes = w.raw(0, w.length());
        for (int at = 0; at + size <= bytes.length; at += size) {
            if (whole(w, at)) {
                Inode inode = new Inode(first + at / size, w.sub(at, size));
                inode(bytes, at, inode, disguise);
                maps(to, inode);
            } else {
                Arrays.fill(bytes, at, at + size, (byte) 0);
            }
        }
        if (w.start() % to.source().sectorSize() == 0) {
            to.put(w, bytes);
        }
    }

    /** Targets of links, data and attributes that stand in the inode. */
    private void inode(byte[] bytes, int at, Inode inode, Disguise disguise) {
        int size = layout.sb.inodeSize();
        long wrong = layout.sb.sums() ? inode.stored() ^ inode.computed(layout.seed) : 0;
        if (inode.fastLink(layout.sb)) {
            int length = (int) Math.min(60, inode.size(layout.sb));
            byte[] target = disguise.letters(length, inode.number()).getBytes(java.nio.charset.StandardCharsets.US_ASCII);
            Arrays.fill(bytes, at + 0x28, at + 0x28 + 60, (byte) 0);
            System.arraycopy(target, 0, bytes, at + 0x28, length);
        } else if (inode.has(Inode.INLINE)) {
            Arrays.fill(bytes, at + 0x28, at + 0x28 + 60, (byte) 0);
        }
        int extra = size > 128 && inode.extraSane() ? inode.extra() : 0;
        Arrays.fill(bytes, at + 128 + extra, at + size, (byte) 0);
        if (layout.sb.sums()) {
            Inode fresh = new Inode(inode.number(), Window.ofRead(Arrays.copyOfRange(bytes, at, at + size), 0, 512));
            long sum = fresh.computed(layout.seed) ^ wrong;
            bytes[at + 0x7C] = (byte) sum;
            bytes[at + 0x7D] = (byte) (sum >> 8);
            if (extra >= 4) {
                bytes[at + 0x82] = (byte) (sum >> 16);
                bytes[at + 0x83] = (byte) (sum >> 24);
            }
        }
    }

    private void maps(CopyTarget to, Inode inode) {
        if (!inode.mapped(layout.sb)) {
            return;
        }
        BlockMap map = Maps.of(layout, inode);
        for (long node : map.nodes) {
            node(to, node, inode);
        }
        if (folder(inode)) {
            boolean first = true;
            for (BlockMap.Run run : map.runs) {
                for (long i = 0; i < run.count(); i++) {
                    folders.put(to, run.physical() + i, inode, first);
                    first = false;
                }
            }
        }
    }

    /** A node of a tree, its slack zero; a block of a classic map only if all of it are numbers of blocks. */
    private void node(CopyTarget to, long number, Inode inode) {
        Window w = layout.read(number);
        if (!layout.inVolume(number) || !w.isRead(0, w.length()) || w.start() % to.source().sectorSize() != 0) {
            return;
        }
        byte[] bytes = w.raw(0, w.length());
        if (inode.has(Inode.EXTENTS)) {
            int used = 12 + 12 * w.u16le(2);
            int tail = 12 + 12 * w.u16le(4);
            if (w.u16le(0) != 0xF30A || used > tail || tail > bytes.length) {
                return;
            }
            int seed = inode.seed(layout.seed);
            int before = Crc.raw(seed, bytes, 0, tail);
            Arrays.fill(bytes, used, tail, (byte) 0);
            Arrays.fill(bytes, Math.min(bytes.length, tail + 4), bytes.length, (byte) 0);
            if (layout.sb.sums() && tail + 4 <= bytes.length) {
                FolderDisguise.xor(bytes, tail, before ^ Crc.raw(seed, bytes, 0, tail));
            }
        } else {
            for (int at = 0; at < bytes.length; at += 4) {
                if (w.u32le(at) >= layout.sb.blocks()) {
                    return;
                }
            }
        }
        to.put(w, bytes);
    }
}
