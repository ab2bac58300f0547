package sectorglass.ext;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.FileTree;
import sectorglass.disk.way.FileWay;
import sectorglass.disk.way.WayBuilder;
import sectorglass.disk.way.WayStep;
import sectorglass.image.ByteRange;
import sectorglass.image.Texts;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/**
 * The way from the superblock to a file: group, inode, block, directory entry, and again. Directories are read from their first block on, hash trees,
 * too, since every name stands in a leaf. Source: Linux kernel documentation, filesystems/ext4.
 */
final class ExtWay implements FileWay {
    private static final int ROOT = 2;
    private static final int MOST_BLOCKS = 1 << 16;

    private final Layout layout;
    private final Groups groups;
    private final long start;
    private final long superblock;

    /** @param superblock byte of the superblock that is believed, from the start of the site */
    ExtWay(Layout layout, Groups groups, long superblock) {
        this.layout = layout;
        this.groups = groups;
        this.superblock = superblock;
        start = layout.site.firstByte();
    }

    /** Where an entry of a directory was found. */
    private record Named(Window block, int at, int name, long inode) { }

    @Override
    public List<WayStep> way(List<String> parts, Locale locale) {
        return WayBuilder.run(new Texts(ExtRules.class, "way", locale), way -> {
            superblock(way);
            Inode inode = inode(way, ROOT, "", parts.isEmpty());
            for (int i = 0; i < parts.size(); i++) {
                if (inode.type() != Inode.DIRECTORY) {
                    throw way.stop("no-folder", parts.get(i - 1));
                }
                ExtExtents map = new ExtExtents(layout, start);
                Named entry = find(way, map, inode, parts.get(i));
                inode = inode(way, entry.inode, parts.get(i), i == parts.size() - 1);
            }
            first(way, inode);
        });
    }

    private void superblock(WayBuilder way) {
        Window w = layout.site.window(superblock, Superblock.LENGTH);
        way.step(superblock == 1024 ? "superblock" : "backup", w.range(), "ext_superblock");
        long shift = way.number("block-shift", w, 0x18, 4);
        way.sum("block-bytes", "1024 × 2^" + shift, layout.blockSize);
        way.number("first-block", w, 0x14, 4);
        way.number("inodes-per-group", w, 0x28, 4);
        way.number("inode-bytes", w, 0x58, 2);
        way.next(descriptorByte(0));
    }

    private long descriptorByte(long group) {
        int per = layout.descriptorsPerBlock();
        return layout.block(layout.tableBlock(group / per)).start() + group % per * layout.sb.descSize();
    }

    /** From the number of an inode to its record: through the descriptor of its group. */
    private Inode inode(WayBuilder way, long number, String name, boolean last) {
        long perGroup = layout.sb.inodesPerGroup();
        long group = (number - 1) / perGroup;
        if (number < 1 || number > layout.sb.inodes() || group >= layout.groups) {
            throw way.stop("inode", number);
        }
        int size = layout.sb.descSize();
        Window d = layout.site.window(descriptorByte(group) - start, size);
        way.step("group", d.range(), "ext_group_descriptor", group, number);
        way.sum("group", "(" + number + " − 1) ÷ " + perGroup, group);
        long table = way.number("table", d, 8, 4);
        if (size >= 64) {
            long high = way.number("table-high", d, 0x28, 4);
            if (high > 0) {
                table = way.sum("halves", high + " × 4294967296 + " + table, high << 32 | table);
            }
        }
        if (!layout.inVolume(table)) {
            throw way.stop("block", table);
        }
        int bytes = layout.sb.inodeSize();
        long at = way.sum("inode", start + " + " + table + " × " + layout.blockSize + " + ((" + number + " − 1) mod " + perGroup + ") × " + bytes,
                start + table * layout.blockSize + (number - 1) % perGroup * bytes);
        way.next(at);
        Window w = layout.site.window(at - start, bytes);
        w.require(0, 128);
        Inode inode = new Inode(number, w);
        way.step(name.isEmpty() ? "root" : inode.type() == Inode.DIRECTORY ? "folder" : "file", w.range(), "ext_inode", number, name);
        way.number("mode", w, 0, 2);
        way.number("size", w, 4, 4);
        way.number("flags", w, 0x20, 4);
        if (last && inode.type() != Inode.DIRECTORY && inode.size(layout.sb) == 0) {
            throw way.stop("empty", name);
        }
        return inode;
    }

    private Named find(WayBuilder way, ExtExtents map, Inode inode, String part) {
        if (inode.has(Inode.INLINE)) {
            for (Window piece : InlineData.directoryParts(inode)) {
                Named found = in(piece, part);
                if (found != null) {
                    way.next(piece.start());
                    return entry(way, found, part);
                }
            }
            throw way.stop("absent", part);
        }
        BlockMap blocks = Maps.of(layout, inode);
        if (!blocks.unread.isEmpty()) {
            map.explain(way, inode, 0);
            throw new UnreadException(blocks.unread);
        }
        UnreadException unread = null;
        int seen = 0;
        for (BlockMap.Run run : blocks.runs) {
            for (long i = 0; i < run.count() && seen++ < MOST_BLOCKS; i++) {
                Window block = layout.read(run.physical() + i);
                try {
                    Named found = in(block, part);
                    if (found != null) {
                        map.explain(way, inode, run.logical() + i);
                        return entry(way, found, part);
                    }
                } catch (UnreadException e) {
                    unread = e;
                }
            }
        }
        map.explain(way, inode, 0);
        if (unread != null) {
            throw unread;
        }
        throw way.stop("absent", part);
    }

    private Named in(Window block, String part) {
        Named[] found = new Named[2];
        DirectoryBlock.walk(layout.sb, block, (at, length, inode, name, type) -> {
            if (inode != 0 && name > 0) {
                String text = FileTree.part(new String(block.bytes(at + 8, name), StandardCharsets.UTF_8));
                if (text.equals(part)) {
                    found[0] = new Named(block, at, name, inode);
                } else if (found[1] == null && text.equalsIgnoreCase(part)) {
                    found[1] = new Named(block, at, name, inode);
                }
            }
        });
        return found[0] != null ? found[0] : found[1];
    }

    private Named entry(WayBuilder way, Named found, String part) {
        Window w = found.block;
        way.step("entry", w.range(found.at, 8 + found.name), "ext_directory_block", part);
        way.number("inode", w, found.at, 4);
        way.read("name", w.range(found.at + 8, found.name), w.bytes(found.at + 8, found.name), part);
        return found;
    }

    private void first(WayBuilder way, Inode inode) {
        if (inode.has(Inode.INLINE) || inode.fastLink(layout.sb)) {
            way.next(way.sum("inline", inode.window().start() + " + 40", inode.window().start() + 0x28));
            return;
        }
        new ExtExtents(layout, start).explain(way, inode, 0);
    }
}
