package sectorglass.fat;

/**
 * The three widths of a FAT entry. Source: Microsoft FAT specification (2005-08-30), "FAT Type Determination" and "FAT data
 * structure"; entry values agree with the Linux kernel's msdos_fs.h.
 */
enum FatKind {
    /** 12-bit entries, up to 4084 clusters. */
    FAT12(12, 0xFFF, 0xFF7, 0xFF8),
    /** 16-bit entries, up to 65524 clusters. */
    FAT16(16, 0xFFFF, 0xFFF7, 0xFFF8),
    /** 28 used bits in 32-bit entries. */
    FAT32(32, 0x0FFFFFFF, 0x0FFFFFF7, 0x0FFFFFF8);

    /** Clusters from which on a volume is FAT16. */
    static final long FAT16_FROM = 4085;
    /** Clusters from which on a volume is FAT32. */
    static final long FAT32_FROM = 65525;
    /** No more clusters than this can be numbered; Linux calls it MAX_FAT32. */
    static final long MOST_CLUSTERS = 0x0FFFFFF6L;

    private final int bits;
    private final int mask;
    private final int bad;
    private final int end;

    FatKind(int bits, int mask, int bad, int end) {
        this.bits = bits;
        this.mask = mask;
        this.bad = bad;
        this.end = end;
    }

    /** The type that the count of clusters gives; no other criterion counts. */
    static FatKind byCount(long clusters) {
        return clusters < FAT16_FROM ? FAT12 : clusters < FAT32_FROM ? FAT16 : FAT32;
    }

    /** Width of an entry in bits: 12, 16 or 32. */
    int bits() {
        return bits;
    }

    /** The bits of an entry that count. */
    int mask() {
        return mask;
    }

    /** The value that marks a bad cluster. */
    int bad() {
        return bad;
    }

    /** The lowest end-of-chain value. */
    int end() {
        return end;
    }

    /** Whether a masked entry ends a chain. */
    boolean isEnd(int entry) {
        return entry >= end;
    }

    /** Bytes that hold this many entries. */
    long tableBytes(long entries) {
        return (entries * bits + 7) / 8;
    }

    /** The word in listings: fat12, fat16, fat32. */
    String word() {
        return name().toLowerCase(java.util.Locale.ROOT);
    }

    /** An entry in hex with the full width. */
    String hex(long entry) {
        return String.format("0x%0" + (bits / 4) + "X", entry);
    }
}
