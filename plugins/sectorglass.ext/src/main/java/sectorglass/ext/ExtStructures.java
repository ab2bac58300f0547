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
        return byContent(layout, block);
    }

    /** Blocks that tell by themselves what they are. */
    private static Optional<Structure> byContent(Layout layout, long block) {
        Window w = layout.read(block);
        if (!w.isRead(0, Math.min(512, layout.blockSize))) {
            return Optional.empty();
        }
        if (w.u16le(0) == 0xF30A && w.u16le(4) == (layout.blockSize - 12) / 12 && w.u16le(2) <= w.u16le(4)) {
            return Optional.of(Structure.plain("extent node in block " + block, "ext_extent_node", layout.block(block).start(),
                    layout.blockSize, Map.of()));
        }
        boolean typed = layout.sb.hasIncompat(Features.FILETYPE);
        boolean folder = w.isRead(0, layout.blockSize) && w.u32le(0) <= layout.sb.inodes()
                && DirectoryBlock.walk(layout.sb, w, (at, length, inode, name, type) -> { }).problem() == null;
        return typed && folder ? Optional.of(Structure.plain("directory block " + block, "ext_directory_block",
                layout.block(block).start(), layout.blockSize, Map.of())) : Optional.empty();
    }
}
