package sectorglass.make.ntfs;

import java.util.ArrayList;
import java.util.List;

import sectorglass.make.write.Block;

/**
 * The B-tree of a directory, filled from sorted entries: leaf blocks from left to right, between two blocks one entry goes up, and
 * so on until the rest fits the root in the file record.
 */
final class DirectoryIndex {
    private static final int FIRST_ENTRY = 0x40;
    private static final int NODE_HEADER = 0x18;
    private static final int UPDATE_SEQUENCE = 0x28;

    private final NtfsGeometry geometry;
    private final List<byte[]> blocks = new ArrayList<>();
    private List<IndexEntry> rootEntries;
    private long lastChild = -1;

    /**
     * Builds the tree.
     *
     * @param sorted entries in their order
     * @param residentRoom bytes that the entries in the root may take where there is no other block
     * @param nodeRoom the same where there are blocks
     */
    DirectoryIndex(NtfsGeometry geometry, List<IndexEntry> sorted, int residentRoom, int nodeRoom) {
        this.geometry = geometry;
        rootEntries = sorted;
        int room = residentRoom;
        while (length(rootEntries) + IndexEntry.endLength(lastChild) > room) {
            raise();
            room = nodeRoom;
        }
    }

    private static int length(List<IndexEntry> entries) {
        return entries.stream().mapToInt(IndexEntry::length).sum();
    }

    private void raise() {
        List<IndexEntry> up = new ArrayList<>();
        int count = rootEntries.size();
        int from = 0;
        while (true) {
            int to = from;
            int used = IndexEntry.endLength(lastChild);
            while (to < count && used + rootEntries.get(to).length() <= NtfsGeometry.INDEX_BLOCK - FIRST_ENTRY) {
                used += rootEntries.get(to++).length();
            }
            if (to == count) {
                lastChild = block(rootEntries.subList(from, count), lastChild);
                break;
            }
            if (to == count - 1) {
                to--;
            }
            IndexEntry middle = rootEntries.get(to);
            up.add(middle.over(block(rootEntries.subList(from, to), middle.child())));
            from = to + 1;
        }
        rootEntries = up;
    }

    private long block(List<IndexEntry> entries, long last) {
        long vcn = (long) blocks.size() * geometry.vcnPerBlock();
        Block block = new Block(NtfsGeometry.INDEX_BLOCK);
        block.ascii(0, "INDX").u64(0x10, vcn);
        int at = FIRST_ENTRY;
        for (IndexEntry entry : entries) {
            at = entry.write(block, at);
        }
        at = IndexEntry.writeEnd(block, at, last);
        header(block, NODE_HEADER, FIRST_ENTRY - NODE_HEADER, at - NODE_HEADER, NtfsGeometry.INDEX_BLOCK - NODE_HEADER, last >= 0);
        FixUps.apply(block, UPDATE_SEQUENCE, 1);
        blocks.add(block.bytes());
        return vcn;
    }

    static void header(Block block, int at, int first, int used, int allocated, boolean children) {
        block.u32(at, first).u32(at + 4, used).u32(at + 8, allocated).u8(at + 12, children ? 1 : 0);
    }

    /** The value of the root attribute. */
    byte[] root() {
        Block block = new Block(0x20 + length(rootEntries) + IndexEntry.endLength(lastChild));
        block.u32(0, Attributes.FILE_NAME).u32(4, 1).u32(8, NtfsGeometry.INDEX_BLOCK).u8(12, geometry.vcnPerBlock());
        int at = 0x20;
        for (IndexEntry entry : rootEntries) {
            at = entry.write(block, at);
        }
        at = IndexEntry.writeEnd(block, at, lastChild);
        header(block, 0x10, 0x10, at - 0x10, at - 0x10, lastChild >= 0);
        return block.bytes();
    }

    /** The blocks in the order of their VCNs; empty where the root holds all. */
    List<byte[]> blocks() {
        return blocks;
    }
}
