package sectorglass.ntfs;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import sectorglass.disk.FileTree;
import sectorglass.disk.way.WayBuilder;
import sectorglass.image.ByteRange;
import sectorglass.image.UnreadException;

/** Goes down the index tree of a folder to a name, as the order of names says, and explains each node. */
final class IndexWay {
    private static final int DEEPEST = 32;
    private static final Pattern SPELLED = Pattern.compile("\\\\u\\{([0-9A-F]{1,6})\\}");

    private final WayBuilder way;
    private final FileTable table;
    private final FileRecord folder;
    private final Collation order;

    /** What a node says: an entry at {@code at}, of the name itself or of the one behind it. */
    private record Hit(int at, boolean found) { }

    IndexWay(WayBuilder way, FileTable table, FileRecord folder) {
        this.way = way;
        this.table = table;
        this.folder = folder;
        order = new Collation(table);
    }

    /** Number of the record that an entry of that name leads to; its place is the next address. */
    long find(String part) {
        FixedBlock wanted = new FixedBlock();
        byte[] name = plain(part).getBytes(StandardCharsets.UTF_16LE);
        wanted.begin(name, 0, name.length);
        FileStream root = folder.stream(AttributeType.INDEX_ROOT, DirectoryIndex.I30).orElse(null);
        if (root == null || root.value == null || root.value.length < 0x20) {
            throw way.stop("index");
        }
        if (!root.valueWhole()) {
            throw new UnreadException(table.window(root.record).missing(0, table.geometry().recordBytes()));
        }
        FixedBlock node = new FixedBlock();
        node.begin(root.value, 0, root.value.length);
        int header = DirectoryIndex.ROOT_HEADER;
        StreamPart part0 = null;
        for (int level = 0; level < DEEPEST; level++) {
            Hit hit = look(node, header, wanted, name.length / 2, part);
            if (hit == null) {
                throw way.stop("index");
            }
            if (hit.found) {
                return entry(node, part0, root.valueByte, hit.at);
            }
            int flags = node.u16(hit.at + 12);
            int length = node.u16(hit.at + 8);
            if ((flags & DirectoryIndex.SUB_NODE) == 0 || length < 24) {
                throw way.stop("absent", part);
            }
            long vcn = node.u64(hit.at + length - 8);
            read("sub-node", node, part0, root.valueByte, hit.at + length - 8, 8, vcn);
            part0 = block(vcn, node, part);
            header = DirectoryIndex.BLOCK_HEADER;
        }
        throw way.stop("index");
    }

    /** A part of a path as it is written, with its spelled-out characters put back. */
    private static String plain(String part) {
        Matcher m = SPELLED.matcher(part);
        return m.replaceAll(r -> {
            int code = Integer.parseInt(r.group(1), 16);
            return Matcher.quoteReplacement(code <= Character.MAX_CODE_POINT ? Character.toString(code) : "");
        });
    }

    /** The entry of the name, else the first one behind it; null where the chain of entries breaks. */
    private Hit look(FixedBlock node, int header, FixedBlock wanted, int units, String part) {
        if (!node.has(header, 16)) {
            return null;
        }
        long first = header + node.u32(header);
        long used = Math.min(node.size, header + node.u32(header + 4));
        if (first > node.size - 16) {
            return null;
        }
        int at = (int) first;
        while (at <= used - 16 && node.has(at, 16)) {
            int length = node.u16(at + 8);
            if (length < 16 || (length & 7) != 0 || at + length > used) {
                return null;
            }
            if ((node.u16(at + 12) & DirectoryIndex.LAST) != 0) {
                return new Hit(at, false);
            }
            int name = node.u16(at + 10) > NameValue.HEAD && node.has(at, length) ? node.u8(at + 16 + NameValue.NAME_LENGTH) : 0;
            if (name > 0 && 16 + NameValue.HEAD + 2 * name <= length) {
                int key = at + 16 + NameValue.HEAD;
                int c = order.compare(wanted, 0, units, node, key, name);
                if (c == 0 || FileTree.part(node.utf16(key, name)).equals(part)) {
                    return new Hit(at, true);
                }
                if (c < 0) {
                    return new Hit(at, false);
                }
            }
            at += length;
        }
        return null;
    }

    private StreamPart block(long vcn, FixedBlock node, String part) {
        Geometry g = table.geometry();
        FileStream allocation = folder.stream(AttributeType.INDEX_ALLOCATION, DirectoryIndex.I30).orElse(null);
        if (allocation == null || vcn < 0 || vcn > Long.MAX_VALUE / g.indexUnitBytes()) {
            throw way.stop("index");
        }
        long offset = vcn * g.indexUnitBytes();
        int run = allocation.runs.runAt(offset / g.clusterBytes());
        if (run < 0 || allocation.runs.lcn(run) == RunList.HOLE || !g.holds(allocation.runs.lcn(run), allocation.runs.count(run))) {
            throw way.stop("index");
        }
        long inRun = offset / g.clusterBytes() - allocation.runs.vcn(run);
        StreamPart read = StreamPart.read(table.image(), g, allocation.runs, offset, g.indexBytes());
        long rest = offset % g.clusterBytes();
        way.next(way.sum("block", g.firstByte() + " + (" + allocation.runs.lcn(run) + " + " + inRun + ") × " + g.clusterBytes() + (rest == 0 ? "" : " + " + rest),
                read.address(0)));
        way.step("block", new ByteRange(read.address(0), g.indexBytes()), "ntfs_index_record", part);
        read.load(node, 0, g.indexBytes());
        if (node.anyUnread()) {
            throw new UnreadException(NtfsWay.missing(read));
        }
        if (node.s32(0) != FixedBlock.INDX || node.fix() == FixedBlock.Fix.BAD_HEADER) {
            throw way.stop("index");
        }
        return read;
    }

    private long entry(FixedBlock node, StreamPart part, long rootByte, int at) {
        long reference = node.u64(at);
        long number = reference & RecordView.NUMBER_MASK;
        int name = node.u8(at + 16 + NameValue.NAME_LENGTH);
        read("name", node, part, rootByte, at + 16 + NameValue.HEAD, 2 * name, node.utf16(at + 16 + NameValue.HEAD, name));
        read("reference", node, part, rootByte, at, 8, number + ", " + (reference >>> 48));
        NtfsWay.next(way, table, number);
        return number;
    }

    private void read(String name, FixedBlock node, StreamPart part, long rootByte, int at, int length, Object value) {
        long where = part == null ? rootByte + at : part.address(at);
        way.read(name, new ByteRange(where, length), Arrays.copyOfRange(node.bytes, node.start + at, node.start + at + length), value);
    }
}
