package sectorglass.ext;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import sectorglass.disk.Structure;
import sectorglass.image.Window;

/** The structures of an ext volume, listed or by place. */
final class ExtStructures {
    private static final int DESCRIPTORS = 64;
    private static final int INODES = 16;
    private static final long MMP = 0x004D4D50L;

    private ExtStructures() {
    }

    static List<Structure> list(ExtVolume volume) {
        List<Structure> all = new ArrayList<>();
        long start = volume.site().firstByte();
        all.add(Structure.plain("superblock", "ext_superblock", start + 1024, Superblock.LENGTH, Map.of()));
        Layout layout = volume.layout();
        if (layout == null) {
            return all;
        }
        for (long group : layout.backupGroups(16)) {
            all.add(Structure.plain("backup superblock of group " + group, "ext_superblock", layout.block(layout.first(group)).start(),
                    Superblock.LENGTH, Map.of()));
        }
        for (int g = 0; g < Math.min(DESCRIPTORS, layout.groups); g++) {
            all.add(descriptor(layout, g));
        }
        for (long number = 1; number <= INODES; number++) {
            if (volume.groups().inode(number) >= 0) {
                all.add(inode(layout, volume.groups(), number));
            }
        }
        long journal = JournalChecks.place(layout, volume.groups());
        if (journal >= 0) {
            all.add(Structure.plain("journal superblock", "ext_journal_superblock", layout.block(journal).start(), 1024, Map.of()));
        }
        all.sort(java.util.Comparator.comparing(Structure::range));
        return List.copyOf(all);
    }

    private static Structure descriptor(Layout layout, long group) {
        int size = layout.sb.descSize();
        long table = layout.tableBlock(group / layout.descriptorsPerBlock());
        long at = layout.block(table).start() + group % layout.descriptorsPerBlock() * size;
        return Structure.plain("descriptor of group " + group, "ext_group_descriptor", at, size, Map.of("desc_size", (long) size));
    }

    private static Structure inode(Layout layout, Groups groups, long number) {
        int size = layout.sb.inodeSize();
        return Structure.plain("inode " + number, "ext_inode", layout.site.firstByte() + groups.inode(number), size,
                Map.of("inode_size", (long) size));
    }

    /** The innermost structure that holds the byte: a listed one, a descriptor, an inode, a block of an extent tree or directory. */
    static Optional<Structure> at(ExtVolume volume, long imageByte) {
        Layout layout = volume.layout();
        Optional<Structure> listed = list(volume).stream().filter(s -> s.range().contains(imageByte)).findFirst();
        if (listed.isPresent() || layout == null) {
            return listed;
        }
        long block = (imageByte - volume.site().firstByte()) / layout.blockSize;
        if (imageByte < volume.site().firstByte() || block >= layout.sb.blocks()) {
            return Optional.empty();
        }
        for (long index = 0; index < layout.tableBlocks() && !layout.sb.hasIncompat(Features.META_BG); index++) {
            if (layout.tableBlock(index) == block) {
                long group = index * layout.descriptorsPerBlock()
                        + (imageByte - layout.block(block).start()) / layout.sb.descSize();
                return group < layout.groups ? Optional.of(descriptor(layout, group)) : Optional.empty();
            }
        }
        for (int g = 0; g < layout.groups; g++) {
            Group group = volume.groups().get(g);
            if (group != null && volume.groups().tableInside(group) && block >= group.inodeTable()
                    && block < group.inodeTable() + layout.inodeTableBlocks()) {
                long offset = imageByte - layout.block(group.inodeTable()).start();
                long index = offset / layout.sb.inodeSize();
                return index < layout.sb.inodesPerGroup()
                        ? Optional.of(inode(layout, volume.groups(), g * layout.sb.inodesPerGroup() + index + 1)) : Optional.empty();
            }
        }
        return byContent(layout, volume, block);
    }

    /** Whether limit and count at an offset fit a node of a hash tree; without checksums an empty block has the same head. */
    private static boolean node(Window w, int at) {
        return at > 0 && w.u16le(at) > 1 && w.u16le(at) <= (w.length() - at) / 8 && w.u16le(at) > (w.length() - at) / 8 - 2
                && w.u16le(at + 2) >= 1 && w.u16le(at + 2) <= w.u16le(at);
    }

    private static Structure block(Layout layout, long block, String name, String format, Map<String, Object> params) {
        return Structure.plain(name + block, format, layout.block(block).start(), layout.blockSize, params);
    }

    /** A block of the journal's own; without a superblock the usual form is shown. */
    private static Optional<Structure> journal(Layout layout, Journal journal, Window w, long block) {
        long sums = journal == null || journal.sums() ? 1 : 0;
        long tag = journal == null ? 16 : journal.tagSize();
        long wide = journal == null || journal.wide() ? 1 : 0;
        return switch ((int) w.u32be(4)) {
            case Journal.DESCRIPTOR -> Optional.of(block(layout, block, "journal descriptor in block ", "ext_journal_descriptor",
                    Map.of("tag_size", tag, "has_tail", sums)));
            case Journal.COMMIT -> Optional.of(block(layout, block, "journal commit in block ", "ext_journal_commit", Map.of()));
            case Journal.REVOCATION -> Optional.of(block(layout, block, "journal revocation in block ", "ext_journal_revocation",
                    Map.of("wide", wide, "has_tail", sums)));
            default -> Optional.empty();
        };
    }

    /** Blocks that tell by themselves what they are. */
    private static Optional<Structure> byContent(Layout layout, ExtVolume volume, long block) {
        Window w = layout.read(block);
        if (!w.isRead(0, Math.min(512, layout.blockSize))) {
            return Optional.empty();
        }
        if (w.u32be(0) == Journal.MAGIC) {
            return journal(layout, Journal.find(layout, volume.groups()), w, block);
        }
        if (w.u32le(0) == AttributeChecks.MAGIC && w.u32le(8) == 1) {
            return Optional.of(block(layout, block, "extended attributes in block ", "ext_attribute_block", Map.of()));
        }
        if (w.u32le(0) == MMP) {
            return Optional.of(Structure.plain("protection against mounting twice", "ext_mmp", layout.block(block).start(), 1024, Map.of()));
        }
        int tail = layout.blockSize - 8;
        if (layout.sb.hasCompat(Features.ORPHAN_FILE) && w.isRead(tail, 8) && w.u32le(tail) == 0x0B10CA04L) {
            return Optional.of(block(layout, block, "orphan file, block ", "ext_orphan_block", Map.of()));
        }
        if (w.u16le(0) == 0xF30A && w.u16le(4) == (layout.blockSize - 12) / 12 && w.u16le(2) <= w.u16le(4)) {
            return Optional.of(Structure.plain("extent node in block " + block, "ext_extent_node", layout.block(block).start(),
                    layout.blockSize, Map.of()));
        }
        boolean typed = layout.sb.hasIncompat(Features.FILETYPE);
        boolean folder = w.isRead(0, layout.blockSize) && w.u32le(0) <= layout.sb.inodes()
                && DirectoryBlock.walk(layout.sb, w, (at, length, inode, name, type) -> { }).problem() == null;
        long sums = layout.sb.sums() ? 1 : 0;
        if (typed && folder && node(w, DirectoryBlock.hashNode(w, true))) {
            return Optional.of(block(layout, block, "root of a hash tree in block ", "ext_hash_tree_root", Map.of("has_tail", sums)));
        }
        if (typed && folder && node(w, DirectoryBlock.hashNode(w, false))) {
            return Optional.of(block(layout, block, "node of a hash tree in block ", "ext_hash_tree_node", Map.of("has_tail", sums)));
        }
        return typed && folder ? Optional.of(Structure.plain("directory block " + block, "ext_directory_block",
                layout.block(block).start(), layout.blockSize, Map.of())) : Optional.empty();
    }
}
