package sectorglass.ext;

import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.Map;

import sectorglass.disk.CompactTree;
import sectorglass.disk.CompactTreeBuilder;
import sectorglass.image.Progress;
import sectorglass.image.Window;

/** Builds the tree of files from the root down, then adds what no directory names and what was deleted. */
final class TreeScan {
    private final Layout layout;
    private final Groups groups;
    private final InodeIndex index;
    private final CompactTreeBuilder builder = new CompactTreeBuilder();
    private final Map<Long, Integer> folders = new HashMap<>();
    private final Deque<Long> waiting = new ArrayDeque<>();
    private final Bits seen;
    /** Blocks looked at. */
    private long steps;
    private boolean stopped;

    TreeScan(Layout layout, Groups groups, Progress progress) {
        this.layout = layout;
        this.groups = groups;
        this.index = new InodeIndex(layout, groups, progress);
        this.seen = new Bits(layout.sb.inodes() + 1);
    }

    CompactTree run(CompactTree.Details details, Progress progress) {
        int root = builder.add("", true, false, 0, Long.MIN_VALUE, 2, 2);
        builder.root(root);
        folders.put(2L, root);
        seen.add(2);
        waiting.add(2L);
        walk(progress);
        loose(progress);
        builder.unread(index.unread);
        if (stopped) {
            builder.remark("Directories have more blocks than the volume: they share blocks, and not all of them were followed.");
        }
        if (layout.sb.hasIncompat(Features.RECOVER)) {
            builder.remark("The journal was not replayed: the newest names and sizes may stand there only.");
        }
        return builder.build(details);
    }

    private void walk(Progress progress) {
        while (!waiting.isEmpty()) {
            progress.checkCancelled();
            long number = waiting.remove();
            long at = groups.inode(number);
            if (at < 0 || index.type(number) != Inode.DIRECTORY) {
                continue;
            }
            Inode inode = new Inode(number, layout.site.window(at, layout.sb.inodeSize()));
            int folder = folders.get(number);
            if (inode.has(Inode.INLINE)) {
                InlineData.directoryParts(inode).forEach(part -> block(folder, number, part, false));
                continue;
            }
            if (steps > 2 * layout.mostSteps()) {
                stopped = true;
                waiting.clear();
                return;
            }
            BlockMap map = Maps.of(layout, inode);
            steps += map.nodes.size();
            builder.unread(map.unread);
            long blocks = inode.size(layout.sb) / layout.blockSize;
            for (BlockMap.Run run : map.runs) {
                for (long i = 0; i < run.count() && run.logical() + i < blocks; i++) {
                    steps++;
                    Window w = layout.read(run.physical() + i);
                    if (w.isRead(0, layout.blockSize)) {
                        block(folder, number, w, run.logical() + i == 0);
                    } else {
                        builder.unread(w.missing(0, layout.blockSize));
                    }
                }
            }
        }
    }

    private void block(int folder, long directory, Window w, boolean first) {
        DirectoryBlock.walk(layout.sb, w, (at, length, inode, name, type) -> {
            if (inode != 0 && name > 0 && index.legal(inode) && !(first && at < 24 && dot(w, at, name))) {
                add(folder, inode, w.text(at + 8, name, StandardCharsets.UTF_8), type, false);
            }
            int end = at + (inode == 0 ? 0 : 8 + name + 3 & ~3);
            remnants(folder, w, end, at + length);
        });
    }

    private static boolean dot(Window w, int at, int name) {
        return w.u8(at + 8) == '.' && (name == 1 || name == 2 && w.u8(at + 9) == '.');
    }

    /** Entries of deleted files in the room between entries: the inode must be a deleted one. */
    private void remnants(int folder, Window w, int from, int to) {
        for (int at = from; at + 12 <= to; at += 4) {
            long inode = w.u32le(at);
            int name = w.u8(at + 6);
            if (inode >= layout.sb.firstInode() && name > 0 && at + 8 + name <= to && index.legal(inode) && index.deleted(inode)
                    && !seen.contains(inode) && printable(w, at + 8, name)) {
                add(folder, inode, w.text(at + 8, name, StandardCharsets.UTF_8), w.u8(at + 7), true);
                at += 8 + name + 3 & ~3;
                at -= 4;
            }
        }
    }

    private static boolean printable(Window w, int at, int length) {
        for (int i = at; i < at + length; i++) {
            int c = w.u8(i);
            if (c < 32 || c == '/' || c == 127) {
                return false;
            }
        }
        return true;
    }

    private void add(int folder, long inode, String name, int type, boolean remnant) {
        boolean unread = index.kind(inode) == InodeIndex.UNREAD;
        boolean directory = unread ? type == 2 : index.type(inode) == Inode.DIRECTORY;
        Integer known = directory && !remnant ? folders.get(inode) : null;
        if (known != null && inode != 2 && builder.parent(known) < 0) {
            builder.parent(known, folder);
            return;
        }
        seen.add(inode);
        int id = builder.add(name, directory, remnant || index.deleted(inode), directory ? 0 : index.size(inode), index.time(inode),
                inode, inode);
        builder.parent(id, folder);
        if (directory && folders.putIfAbsent(inode, id) == null && !remnant) {
            waiting.add(inode);
        }
    }

    /** Inodes that no name was found for: directories first, so that what they name hangs below them. */
    private void loose(Progress progress) {
        for (int pass = 0; pass < 2; pass++) {
            for (long number = layout.sb.firstInode(); number <= layout.sb.inodes() && index.legal(number); number++) {
                int type = index.type(number);
                boolean wanted = pass == 0 ? type == Inode.DIRECTORY && index.used(number) : type != 0;
                if (wanted && !seen.contains(number) && !hidden(number)) {
                    seen.add(number);
                    boolean directory = type == Inode.DIRECTORY;
                    int id = builder.add("inode " + number, directory, index.deleted(number), directory ? 0 : index.size(number),
                            index.time(number), number, number);
                    if (directory && index.used(number) && folders.putIfAbsent(number, id) == null) {
                        waiting.add(number);
                        walk(progress);
                    }
                }
            }
        }
    }

    /** Inodes of quotas, the orphan file and values of attributes have no names. */
    private boolean hidden(long number) {
        Window sb = layout.site.window(1024, Superblock.LENGTH);
        if (sb.isRead(0, 1024) && (number == sb.u32le(0x240) || number == sb.u32le(0x244) || number == sb.u32le(0x26C)
                || number == sb.u32le(0x280))) {
            return true;
        }
        if (!layout.sb.hasIncompat(Features.EA_INODE)) {
            return false;
        }
        Window w = layout.site.window(groups.inode(number), 128);
        return w.isRead(0, 128) && (w.u32le(0x20) & Inode.VALUE) != 0;
    }
}
