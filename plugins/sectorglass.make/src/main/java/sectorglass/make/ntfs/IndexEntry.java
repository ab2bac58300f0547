package sectorglass.make.ntfs;

import sectorglass.make.write.Block;

/**
 * An entry of a directory.
 *
 * @param name sorts it
 * @param reference of the file record
 * @param key the name attribute's value
 * @param child VCN of the block with the entries before this one, or -1
 */
record IndexEntry(String name, long reference, byte[] key, long child) {
    private static final int HEADER = 0x10;

    IndexEntry(String name, long reference, byte[] key) {
        this(name, reference, key, -1);
    }

    IndexEntry over(long newChild) {
        return new IndexEntry(name, reference, key, newChild);
    }

    int length() {
        return (HEADER + key.length + 7 & ~7) + (child < 0 ? 0 : 8);
    }

    int write(Block block, int at) {
        int length = length();
        block.u64(at, reference).u16(at + 8, length).u16(at + 10, key.length).u16(at + 12, child < 0 ? 0 : 1);
        block.put(at + HEADER, key);
        if (child >= 0) {
            block.u64(at + length - 8, child);
        }
        return at + length;
    }

    static int endLength(long child) {
        return child < 0 ? HEADER : HEADER + 8;
    }

    static int writeEnd(Block block, int at, long child) {
        int length = endLength(child);
        block.u16(at + 8, length).u16(at + 12, child < 0 ? 2 : 3);
        if (child >= 0) {
            block.u64(at + HEADER, child);
        }
        return at + length;
    }
}
