package sectorglass.ext;

import java.util.HashMap;
import java.util.Map;

import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Reads all directories and judges entries, checksums, names and the tree. Source: Linux kernel documentation, filesystems/ext4. */
final class DirectoryPass {
    private final Census census;
    private final Layout layout;
    private final Tally tally;
    private final Tally.Sum typeSum;
    /** Directory to the one that names it, and to the one that its ".." names. */
    final Map<Long, Long> namedBy = new HashMap<>();
    final Map<Long, Long> upward = new HashMap<>();
    private final Map<Long, ByteRange> dots = new HashMap<>();
    private LongSet hashes = new LongSet();
    private int lastType;
    /** Blocks looked at. */
    private long steps;
    private boolean lostAndFound;
    private SectorRanges rootNames = SectorRanges.EMPTY;

    DirectoryPass(Census census, Tally tally) {
        this.census = census;
        this.layout = census.layout;
        this.tally = tally;
        this.typeSum = tally.sum("ext.dir.type");
    }

    void run(Progress progress) {
        int done = 0;
        for (long number : census.directories) {
            progress.checkCancelled();
            progress.at("directories", done++, census.directories.size());
            if (steps > 2 * layout.mostSteps()) {
                ByteRange at = inodeRange(number);
                fault(tally.fail("ext.dir.tree", at, at, Outcome.failed("directories up to " + number + " have more than " + 2 * layout.mostSteps()
                        + " blocks", layout.sb.blocks() + " blocks in all").with("inode", number)));
                break;
            }
            long at = census.groups.inode(number);
            Inode inode = new Inode(number, layout.site.window(at, layout.sb.inodeSize()));
            if (inode.has(Inode.INLINE)) {
                inline(inode);
            } else {
                directory(inode);
            }
        }
        if (!lostAndFound && census.used(2) && rootMissing().isEmpty() && census.nameFault == null) {
            ByteRange root = inodeRange(2);
            tally.fail("ext.dir.lost-found", root, root, Outcome.failed("none", "lost+found"));
        } else if (!lostAndFound && !rootMissing().isEmpty()) {
            tally.unread("ext.dir.lost-found", rootMissing());
        }
        tally.flush(new ByteRange(layout.site.firstByte(), layout.sb.blocks() * layout.blockSize));
        tree();
    }

    /** What was not read of the root directory or the way to it. */
    private SectorRanges rootMissing() {
        long at = census.groups.inode(2);
        if (at < 0) {
            return census.groups.missing(0);
        }
        if (census.kind(2) == Census.UNREAD) {
            SectorRanges inode = layout.site.window(at, layout.sb.inodeSize()).missing(0, layout.sb.inodeSize());
            return inode.isEmpty() ? census.groups.missing(0) : inode;
        }
        return rootNames;
    }

    private void directory(Inode inode) {
        BlockMap map = Maps.of(layout, inode);
        steps += map.nodes.size();
        SectorRanges before = census.unreadNames;
        names(inode, map);
        if (inode.number() == 2) {
            rootNames = census.unreadNames.minus(before);
        }
    }

    private void names(Inode inode, BlockMap map) {
        census.unreadNames = census.unreadNames.union(map.unread);
        LongSet names = emptied();
        long expected = 0;
        for (BlockMap.Run run : map.runs) {
            if (run.logical() != expected && map.whole() && run.logical() < inode.size(layout.sb) / layout.blockSize) {
                hole(inode, expected);
            }
            expected = run.logical() + run.count();
            for (long i = 0; i < run.count() && (run.logical() + i) * layout.blockSize < inode.size(layout.sb); i++) {
                block(inode, run.logical() + i, run.physical() + i, names);
            }
        }
        if (!map.faults.isEmpty()) {
            census.nameFault = census.nameFault == null ? census.mapFault : census.nameFault;
        }
    }

    /** The set of hashes of names, for another directory. */
    private LongSet emptied() {
        if (hashes.large()) {
            hashes = new LongSet();
        }
        hashes.clear();
        return hashes;
    }

    private void hole(Inode inode, long logical) {
        ByteRange at = inode.window().range();
        fault(tally.fail("ext.dir.entry", at, at, Outcome.failed("no block " + logical, "a directory without holes")
                .with("inode", inode.number())));
    }

    private void fault(Mark mark) {
        census.nameFault = census.nameFault == null ? mark : census.nameFault;
    }

    private void block(Inode inode, long logical, long physical, LongSet names) {
        steps++;
        Window w = layout.read(physical);
        SectorRanges missing = w.missing(0, layout.blockSize);
        if (!missing.isEmpty() && layout.sb.sums()) {
            tally.unread(inode.has(Inode.HASH_TREE) ? "ext.dx.checksum" : "ext.dir.checksum", missing);
        }
        if (!missing.isEmpty() && !DirectoryBlock.entriesRead(layout.sb, w)) {
            census.unreadNames = census.unreadNames.union(missing);
            tally.unread("ext.dir.entry", missing);
            tally.unread("ext.dir.type", missing);
            if (logical == 0) {
                tally.unread("ext.dir.dots", missing);
            }
            return;
        }
        ByteRange structure = layout.block(physical);
        Mark sum = layout.sb.sums() && missing.isEmpty() ? sum(inode, logical, w, structure) : null;
        int[] index = {0};
        DirectoryBlock.End end = DirectoryBlock.walk(layout.sb, w, (at, length, child, name, type) -> {
            int i = index[0]++;
            if (logical == 0 && i < 2) {
                dot(inode, w, at, child, name, i, structure, sum);
                if (i == 1 || child == inode.number()) {
                    return;
                }
            }
            if (child != 0) {
                entry(inode, w, at, child, name, type, names, structure, sum);
            }
        });
        if (end.problem() != null) {
            fault(tally.fail("ext.dir.entry", w.range(end.at(), Math.min(8, w.length() - end.at())), structure, Outcome.failed(end.problem(),
                    "an entry that fits into the block").with("inode", inode.number()).because(sum)));
        } else {
            tally.pass("ext.dir.entry");
        }
    }

    private Mark sum(Inode inode, long logical, Window w, ByteRange structure) {
        int seed = inode.seed(layout.seed);
        int end = w.length();
        int node = inode.has(Inode.HASH_TREE) ? DirectoryBlock.hashNode(w, logical == 0) : 0;
        if (node > 0) {
            int limit = w.u16le(node);
            int count = w.u16le(node + 2);
            int tail = node + 8 * limit;
            if (count > limit || tail + 8 > end) {
                return tally.fail("ext.dx.checksum", w.range(node, 4), structure, Outcome.failed(count + " entries, room for " + limit,
                        "room for at most " + (end - node - 8) / 8).with("inode", inode.number()));
            }
            int crc = Crc.raw(seed, w.bytes(0, node + 8 * count));
            crc = Crc.raw(Crc.raw(crc, w.bytes(tail, 4)), new byte[4]);
            if (crc != (int) w.u32le(tail + 4)) {
                return tally.fail("ext.dx.checksum", w.range(tail + 4, 4), structure, Outcome.failed(String.format("%08X",
                        w.u32le(tail + 4)), String.format("%08X", crc)).with("inode", inode.number()));
            }
            tally.pass("ext.dx.checksum");
            return null;
        }
        if (!DirectoryBlock.hasTail(w)) {
            return tally.fail("ext.dir.checksum", w.range(end - 12, 12), structure, Outcome.failed("no checksum entry",
                    "an entry of 12 bytes at the end").with("inode", inode.number()));
        }
        int crc = Crc.raw(seed, w.bytes(0, end - 12));
        if (crc != (int) w.u32le(end - 4)) {
            return tally.fail("ext.dir.checksum", w.range(end - 4, 4), structure, Outcome.failed(String.format("%08X", w.u32le(end - 4)),
                    String.format("%08X", crc)).with("inode", inode.number()));
        }
        tally.pass("ext.dir.checksum");
        return null;
    }

    private void dot(Inode inode, Window w, int at, long child, int name, int index, ByteRange structure, Mark cause) {
        boolean named = name == index + 1 && w.u8(at + 8) == '.' && (index == 0 || w.u8(at + 9) == '.');
        boolean right = named && (index == 0 ? child == inode.number() : child >= 1 && child <= layout.sb.inodes());
        if (!right) {
            String shown = name > 0 ? w.text(at + 8, Math.min(name, 16), java.nio.charset.StandardCharsets.UTF_8) : "";
            fault(tally.fail("ext.dir.dots", w.range(at, 12), structure, Outcome.failed("\"" + shown.replaceAll("\\p{C}", "?")
                    + "\" to inode " + child, index == 0 ? "\".\" to inode " + inode.number() : "\"..\"")
                    .with("inode", inode.number()).because(cause)));
            return;
        }
        tally.pass("ext.dir.dots");
        census.named(child);
        if (index == 1) {
            upward.put(inode.number(), child);
            dots.put(inode.number(), w.range(at, 12));
        }
    }

    private void entry(Inode inode, Window w, int at, long child, int name, int type, LongSet names, ByteRange structure, Mark cause) {
        ByteRange where = w.range(at, 8 + name);
        String problem = name == 0 ? "empty name" : null;
        long hash = 1125899906842597L;
        for (int i = 0; i < name; i++) {
            int c = w.u8(at + 8 + i);
            hash = 31 * hash + c;
            problem = c == 0 || c == '/' ? "name with byte " + c : problem;
        }
        if (problem == null && name <= 2 && w.u8(at + 8) == '.' && w.u8(at + 7 + name) == '.') {
            problem = "name \".\" or \"..\" once more";
        }
        if (problem == null && !names.add(hash * 257 + name)) {
            problem = "name that stands there twice";
        }
        if (child > layout.sb.inodes() || child < layout.sb.firstInode() && child != 2) {
            problem = "inode " + child;
        } else if (child == 2) {
            problem = "a name of the root";
        } else if (problem == null && census.kind(child) != Census.UNREAD && !census.used(child)) {
            problem = "inode " + child + " that is not in use";
        }
        if (problem != null) {
            fault(tally.fail("ext.dir.entry", where, structure, Outcome.failed(problem, "a name and an inode in use")
                    .with("inode", inode.number()).because(cause)));
            if (child > layout.sb.inodes() || child < 1) {
                return;
            }
        }
        if (inode.number() == 2 && name == 10 && w.matches(at + 8, "lost+found")) {
            lostAndFound = true;
        }
        census.named(child);
        if (census.kind(child) == Census.UNREAD || !census.used(child)) {
            return;
        }
        lastType = census.kind(child) & 15;
        if (type >= 0 && type != direntType(lastType) && (census.kind(child) & Census.DOUBTFUL) == 0) {
            tally.fail("ext.dir.type", w.range(at + 7, 1), structure, Outcome.failed(type, direntType(lastType)).with("inode", child)
                    .because(cause));
        } else {
            typeSum.pass();
        }
        if (lastType == Inode.DIRECTORY) {
            Long other = namedBy.putIfAbsent(child, inode.number());
            if (other != null) {
                fault(tally.fail("ext.dir.tree", where, structure, Outcome.failed("directory " + child + " named by " + other + " and "
                        + inode.number(), "one name").with("inode", child).because(cause)));
            }
        }
    }

    private static int direntType(int mode) {
        return switch (mode) {
            case 8 -> 1;
            case 4 -> 2;
            case 2 -> 3;
            case 6 -> 4;
            case 1 -> 5;
            case 12 -> 6;
            case 10 -> 7;
            default -> 0;
        };
    }

    /** Entries in the inode: the parent in four bytes, then entries; more in the attribute "system.data". */
    private void inline(Inode inode) {
        Window w = inode.window();
        upward.put(inode.number(), w.u32le(0x28));
        dots.put(inode.number(), w.range(0x28, 4));
        census.named(inode.number());
        if (w.u32le(0x28) >= 1 && w.u32le(0x28) <= layout.sb.inodes()) {
            census.named(w.u32le(0x28));
        }
        LongSet names = emptied();
        for (Window part : InlineData.directoryParts(inode)) {
            DirectoryBlock.End end = DirectoryBlock.walk(layout.sb, part, (at, length, child, name, type) -> {
                if (child != 0) {
                    entry(inode, part, at, child, name, type, names, w.range(), null);
                }
            });
            if (end.problem() != null) {
                fault(tally.fail("ext.dir.entry", part.range(end.at(), Math.min(8, part.length() - end.at())), w.range(),
                        Outcome.failed(end.problem(), "an entry that fits").with("inode", inode.number())));
            } else {
                tally.pass("ext.dir.entry");
            }
        }
    }

    /** Each directory is named once, by the one its ".." names; all hang below the root. */
    private void tree() {
        if (!census.unknownNames().isEmpty()) {
            // a directory, or its second name, may stand there
            tally.unread("ext.dir.tree", census.unknownNames());
        }
        for (long number : census.directories) {
            Long up = upward.get(number);
            Long by = number == 2 ? Long.valueOf(2) : namedBy.get(number);
            ByteRange where = dots.get(number);
            if (up == null || where == null) {
                continue;
            }
            if (by == null) {
                if (census.unknownNames().isEmpty() && number >= layout.sb.firstInode()) {
                    ByteRange at = inodeRange(number);
                    tally.fail("ext.dir.tree", at, at, Outcome.failed("no directory names directory " + number, "one name")
                            .with("inode", number).because(census.nameFault));
                }
            } else if (!by.equals(up)) {
                tally.fail("ext.dir.tree", where, where, Outcome.failed("\"..\" of directory " + number + " is " + up, by)
                        .with("inode", number).because(census.nameFault));
            } else if (circle(number)) {
                ByteRange at = inodeRange(number);
                tally.fail("ext.dir.tree", at, at, Outcome.failed("directory " + number + " lies in itself", "below the root")
                        .with("inode", number).because(census.nameFault));
            } else {
                tally.pass("ext.dir.tree");
            }
        }
    }

    private boolean circle(long number) {
        Long at = number;
        for (int steps = 0; at != null && at != 2 && steps < 100_000; steps++) {
            at = namedBy.get(at);
            if (at != null && at == number) {
                return true;
            }
        }
        return false;
    }

    private ByteRange inodeRange(long number) {
        return new ByteRange(layout.site.firstByte() + census.groups.inode(number), layout.sb.inodeSize());
    }
}
