package sectorglass.ntfs;

import java.time.Instant;

/**
 * The value of a $FILE_NAME attribute, or the key of a directory's index entry. Sources: Linux kernel fs/ntfs3/ntfs.h (ATTR_FILE_NAME,
 * NTFS_DUP_INFO); NTFS-3G layout.h.
 *
 * @param parent number of the folder's record
 * @param parentSequence sequence number that record had
 * @param created FILETIME ticks, as the other three
 * @param modified content changed
 * @param changed record changed
 * @param accessed last access
 * @param allocated bytes of the unnamed stream's clusters, when this copy was made
 * @param real bytes of the unnamed stream, when this copy was made
 * @param attributes file attribute bits
 * @param namespace 0 POSIX, 1 Win32, 2 DOS, 3 Win32 and DOS in one
 * @param name as it stands
 */
record NameValue(long parent, int parentSequence, long created, long modified, long changed, long accessed, long allocated, long real,
        int attributes, int namespace, String name) {
    static final int HEAD = 0x42;               // bytes before the name
    static final int NAME_LENGTH = 0x40;        // u8, UTF-16 units
    static final int NAMESPACE = 0x41;          // u8
    static final int DOS = 2;
    /** 100 ns ticks between 1601-01-01 and 1970-01-01 (MS-DTYP 2.3.3). */
    static final long UNIX_EPOCH = 116_444_736_000_000_000L;

    /** The name in the resident attribute at the cursor, or null where it is illegal or not known whole. */
    static NameValue of(RecordView view) {
        int at = view.resident() ? view.valueOffset() : -1;
        return at < 0 ? null : at(view, at, view.valueLength());
    }

    /** The name at a place of a block, or null where it is illegal or not known whole. */
    static NameValue at(FixedBlock block, int at, int length) {
        if (length < HEAD || !block.has(at, HEAD)) {
            return null;
        }
        int units = block.u8(at + NAME_LENGTH);
        if (units == 0 || HEAD + 2 * units > length || !block.has(at + HEAD, 2 * units)) {
            return null;
        }
        long parent = block.u64(at);
        return new NameValue(parent & RecordView.NUMBER_MASK, (int) (parent >>> 48), block.u64(at + 8), block.u64(at + 16),
                block.u64(at + 24), block.u64(at + 32), block.u64(at + 40), block.u64(at + 48), block.s32(at + 56),
                block.u8(at + NAMESPACE), block.utf16(at + HEAD, units));
    }

    /** A FILETIME as an instant, or null where it is 0 or outside the years 1 to 9999. */
    static Instant instant(long ticks) {
        if (ticks <= 0) {
            return null;
        }
        long unix = ticks - UNIX_EPOCH;
        long seconds = Math.floorDiv(unix, 10_000_000L);
        return seconds > 253_402_300_799L ? null : Instant.ofEpochSecond(seconds, Math.floorMod(unix, 10_000_000L) * 100);
    }
}
