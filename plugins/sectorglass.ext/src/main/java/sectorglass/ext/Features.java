package sectorglass.ext;

/** Feature bits of the superblock. Source: Linux kernel documentation, filesystems/ext4, super block. */
final class Features {
    static final long HAS_JOURNAL = 0x4;
    static final long RESIZE_INODE = 0x10;
    static final long SPARSE_SUPER2 = 0x200;
    static final long ORPHAN_FILE = 0x1000;

    static final long FILETYPE = 0x2;
    static final long RECOVER = 0x4;
    static final long JOURNAL_DEVICE = 0x8;
    static final long META_BG = 0x10;
    static final long EXTENTS = 0x40;
    static final long BIT64 = 0x80;
    static final long MMP = 0x100;
    static final long FLEX_BG = 0x200;
    static final long EA_INODE = 0x400;
    static final long CSUM_SEED = 0x2000;
    static final long LARGEDIR = 0x4000;
    static final long INLINE_DATA = 0x8000;
    static final long ENCRYPT = 0x10000;
    static final long CASEFOLD = 0x20000;
    /** All incompatible bits that are known here. */
    static final long KNOWN_INCOMPAT = 0x3F7DF;

    static final long SPARSE_SUPER = 0x1;
    static final long HUGE_FILE = 0x8;
    static final long GDT_CSUM = 0x10;
    static final long QUOTA = 0x100;
    static final long BIGALLOC = 0x200;
    static final long METADATA_CSUM = 0x400;
    static final long SHARED_BLOCKS = 0x4000;
    /** Any of these read-only bits makes it ext4. */
    static final long EXT4_RO = 0x1FF78;
    /** Any of these incompatible bits makes it ext4. */
    static final long EXT4_INCOMPAT = 0x3F7C0;

    private Features() {
    }
}
