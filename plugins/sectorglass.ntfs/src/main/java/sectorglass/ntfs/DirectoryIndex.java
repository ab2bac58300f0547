package sectorglass.ntfs;

import java.util.Optional;

/**
 * The entries of a folder's index ($I30), block by block as the index bitmap says, without walking the tree: cycles in it do no harm, and
 * entries below a damaged node are still found. Sources: Linux kernel fs/ntfs3/ntfs.h (INDEX_ROOT, INDEX_BUFFER, NTFS_DE).
 */
final class DirectoryIndex {
    static final String I30 = "$I30";
    static final int ROOT_HEADER = 0x10;        // index header in the root value
    static final int BLOCK_HEADER = 0x18;       // index header in a block
    static final int LAST = 2;                  // entry flag
    static final int SUB_NODE = 1;              // entry flag
    /** Blocks looked at in one folder: a folder with a hundred million names. */
    private static final long MOST_BLOCKS = 1L << 24;

    private final FileTable table;
    private final FileRecord folder;

    /** Sees each entry. */
    interface Visitor {
        /**
         * @param block holds the entry
         * @param at offset of the entry in the block
         * @param key offset of its key, a $FILE_NAME value
         * @param keyLength bytes of the key
         */
        void entry(FixedBlock block, int at, int key, int keyLength);
    }

    /** What was not seen. */
    static final class Seen {
        /** Blocks that were not read. */
        long unreadBlocks;
        /** Blocks whose head, update sequence or entry chain is damaged. */
        long badBlocks;
        boolean rootMissing;

        boolean whole() {
            return unreadBlocks == 0 && badBlocks == 0 && !rootMissing;
        }
    }

    DirectoryIndex(FileTable table, FileRecord folder) {
        this.table = table;
        this.folder = folder;
    }

    /** Shows all entries, at most {@code blocks} index blocks of them. */
    Seen entries(Visitor visitor, long blocks) {
        Seen seen = new Seen();
        FixedBlock block = new FixedBlock();
        Optional<FileStream> root = folder.stream(AttributeType.INDEX_ROOT, I30);
        if (root.isEmpty() || !root.get().valueWhole() || root.get().value.length < 0x20) {
            seen.rootMissing = true;
        } else {
            block.begin(root.get().value, 0, root.get().value.length);
            if (!walk(block, ROOT_HEADER, visitor)) {
                seen.badBlocks++;
            }
        }
        Optional<FileStream> allocation = folder.stream(AttributeType.INDEX_ALLOCATION, I30);
        if (allocation.isPresent() && allocation.get().sized) {
            blocks(allocation.get(), visitor, Math.min(blocks, MOST_BLOCKS), seen, block);
        }
        return seen;
    }

    private void blocks(FileStream allocation, Visitor visitor, long most, Seen seen, FixedBlock block) {
        int size = table.geometry().indexBytes();
        long readable = allocation.runs.readableEnd(table.geometry(), table.image().bytes());
        long count = Math.min(Math.min(most, allocation.real / size), readable * table.geometry().clusterBytes() / size);
        IndexBitmap used = IndexBitmap.of(table, folder);
        int step = Math.max(1, (256 << 10) / size);
        for (long first = 0; first < count; first += step) {
            int n = (int) Math.min(step, count - first);
            if (!used.any(first, n)) {
                continue;
            }
            StreamPart part = StreamPart.read(table.image(), table.geometry(), allocation.runs, first * size, n * size);
            for (int i = 0; i < n; i++) {
                if (!used.get(first + i)) {
                    continue;
                }
                part.load(block, i * size, size);
                if (block.fix() == FixedBlock.Fix.UNREAD) {
                    seen.unreadBlocks++;
                } else if (block.s32(0) != FixedBlock.INDX || !walk(block, BLOCK_HEADER, visitor)) {
                    if (block.anyUnread()) {
                        seen.unreadBlocks++;
                    } else {
                        seen.badBlocks++;
                    }
                }
            }
        }
    }

    /** Walks the entries after an index header; false where the chain breaks before its last entry. */
    static boolean walk(FixedBlock block, int header, Visitor visitor) {
        if (!block.has(header, 16)) {
            return false;
        }
        long first = header + block.u32(header);
        long used = header + block.u32(header + 4);
        if (first > block.size - 16 || used > block.size) {
            return false;
        }
        int at = (int) first;
        while (at <= used - 16 && block.has(at, 16)) {
            int length = block.u16(at + 8);
            int keyLength = block.u16(at + 10);
            int flags = block.u16(at + 12);
            if (length < 16 || (length & 7) != 0 || at + length > used) {
                return false;
            }
            if ((flags & LAST) != 0) {
                return true;
            }
            if (16 + keyLength <= length) {
                visitor.entry(block, at, at + 16, keyLength);
            }
            at += length;
        }
        return false;
    }
}
