package sectorglass.make.ntfs;

import sectorglass.make.write.Block;

/** Content of $AttrDef: 160 bytes per attribute type, with the flags and sizes that NTFS 3.1 volumes made by mkntfs hold. */
final class AttributeDefinitions {
    static final int BYTES = 2560;
    private static final int ENTRY = 160;

    private AttributeDefinitions() {
    }

    static byte[] table() {
        Block block = new Block(BYTES);
        int at = 0;
        at = entry(block, at, "$STANDARD_INFORMATION", 0x10, 0x40, 0x30, 0x48);
        at = entry(block, at, "$ATTRIBUTE_LIST", 0x20, 0x80, 0, -1);
        at = entry(block, at, "$FILE_NAME", 0x30, 0x42, 0x44, 0x242);
        at = entry(block, at, "$OBJECT_ID", 0x40, 0x40, 0, 0x100);
        at = entry(block, at, "$SECURITY_DESCRIPTOR", 0x50, 0x80, 0, -1);
        at = entry(block, at, "$VOLUME_NAME", 0x60, 0x40, 2, 0x100);
        at = entry(block, at, "$VOLUME_INFORMATION", 0x70, 0x40, 0xC, 0xC);
        at = entry(block, at, "$DATA", 0x80, 0, 0, -1);
        at = entry(block, at, "$INDEX_ROOT", 0x90, 0x40, 0, -1);
        at = entry(block, at, "$INDEX_ALLOCATION", 0xA0, 0x80, 0, -1);
        at = entry(block, at, "$BITMAP", 0xB0, 0x80, 0, -1);
        at = entry(block, at, "$REPARSE_POINT", 0xC0, 0x80, 0, 0x4000);
        at = entry(block, at, "$EA_INFORMATION", 0xD0, 0x40, 8, 8);
        at = entry(block, at, "$EA", 0xE0, 0, 0, 0x10000);
        entry(block, at, "$LOGGED_UTILITY_STREAM", 0x100, 0x80, 0, 0x10000);
        return block.bytes();
    }

    private static int entry(Block block, int at, String name, int type, int flags, long least, long most) {
        block.utf16(at, name).u32(at + 0x80, type).u32(at + 0x8C, flags).u64(at + 0x90, least).u64(at + 0x98, most);
        return at + ENTRY;
    }
}
