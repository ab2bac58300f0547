package sectorglass.make.ntfs;

import sectorglass.make.write.Block;

/**
 * The streams of $Secure with a single descriptor, which all files share: owner and group are the administrators, everybody may do
 * everything. The descriptor's form is that of MS-DTYP 2.4.6; the hash and the index entries follow what mkntfs writes.
 */
final class SecurityStore {
    /** Distance of the second copy. */
    static final int COPY = 0x40000;
    private static final int HEADER = 20;

    private SecurityStore() {
    }

    private static byte[] descriptor() {
        Block block = new Block(0x50);
        block.u8(0, 1).u16(2, 0x8004).u32(4, 0x30).u32(8, 0x40).u32(16, 0x14);
        block.u8(0x14, 2).u16(0x16, 0x1C).u16(0x18, 1);
        block.u8(0x1D, 3).u16(0x1E, 0x14).u32(0x20, 0x001F01FF).u8(0x24, 1).u8(0x25, 1).u8(0x2B, 1);
        for (int sid : new int[] {0x30, 0x40}) {
            block.u8(sid, 1).u8(sid + 1, 2).u8(sid + 7, 5).u32(sid + 8, 32).u32(sid + 12, 544);
        }
        return block.bytes();
    }

    private static int hash(byte[] descriptor) {
        Block block = new Block(descriptor);
        int hash = 0;
        for (int at = 0; at < descriptor.length; at += 4) {
            hash = (int) block.u32(at) + Integer.rotateLeft(hash, 3);
        }
        return hash;
    }

    private static void head(Block block, int at) {
        byte[] descriptor = descriptor();
        block.u32(at, hash(descriptor)).u32(at + 4, Attributes.SECURITY_ID).u32(at + 16, HEADER + descriptor.length);
    }

    /** One entry of the stream $SDS; it stands at 0 and at {@link #COPY}. */
    static byte[] entry() {
        byte[] descriptor = descriptor();
        Block block = new Block(HEADER + descriptor.length);
        head(block, 0);
        return block.put(HEADER, descriptor).bytes();
    }

    /** Root of the index by hash. */
    static byte[] byHash() {
        Block key = new Block(8).u32(0, hash(descriptor())).u32(4, Attributes.SECURITY_ID);
        Block root = root(key.bytes(), 0x12, 0x30);
        root.u16(0x20 + 0x2C, 'I').u16(0x20 + 0x2E, 'I');
        return root.bytes();
    }

    /** Root of the index by security id. */
    static byte[] byId() {
        return root(new Block(4).u32(0, Attributes.SECURITY_ID).bytes(), 0x10, 0x28).bytes();
    }

    private static Block root(byte[] key, int collation, int entryLength) {
        int data = 0x10 + key.length;
        Block block = new Block(0x20 + entryLength + 0x10);
        block.u32(4, collation).u32(8, NtfsGeometry.INDEX_BLOCK).u8(12, 1);
        block.u16(0x20, data).u16(0x22, HEADER).u16(0x28, entryLength).u16(0x2A, key.length).put(0x30, key);
        head(block, 0x20 + data);
        IndexEntry.writeEnd(block, 0x20 + entryLength, -1);
        DirectoryIndex.header(block, 0x10, 0x10, entryLength + 0x20, entryLength + 0x20, false);
        return block;
    }
}
