package sectorglass.ntfs;

/**
 * A file record and a cursor over its attributes. Loaded again and again without making objects; see {@link FixedBlock} for what
 * "unread" and "torn" do. Sources: Linux kernel fs/ntfs3/ntfs.h (MFT_REC, ATTRIB); Microsoft, Master File Table (developer notes).
 *
 * <pre>
 *  off len  field
 *    0   4  "FILE"
 *    4   2  offset, 6: 2 count of the update sequence
 *   16   2  sequence number
 *   18   2  hard links
 *   20   2  offset of the first attribute
 *   22   2  flags: 1 in use, 2 directory
 *   24   4  bytes used
 *   28   4  bytes allocated
 *   32   8  base record, 0 in a base record itself
 *   40   2  next attribute id
 *   44   4  own number (NTFS 3.1: the update sequence then starts at 48)
 * </pre>
 */
final class RecordView extends FixedBlock {
    static final int SEQUENCE = 0x10;           // u16
    static final int LINKS = 0x12;              // u16
    static final int FIRST_ATTRIBUTE = 0x14;    // u16
    static final int FLAGS = 0x16;              // u16
    static final int USED = 0x18;               // u32
    static final int ALLOCATED = 0x1C;          // u32
    static final int BASE = 0x20;               // reference
    static final int NEXT_ID = 0x28;            // u16
    static final int NUMBER = 0x2C;             // u32, only where the update sequence starts at 0x30 or later
    static final int IN_USE = 1;
    static final int DIRECTORY = 2;
    static final long NUMBER_MASK = 0xFFFFFFFFFFFFL;

    /** Why the walk over the attributes ended. */
    enum End {
        /** There are more. */
        NONE,
        /** The end mark was reached. */
        MARK,
        /** A length, or the place of the next attribute, is illegal. */
        BROKEN,
        /** The next attribute lies in bytes that were not read or are torn. */
        UNKNOWN
    }

    /** Number of the record in the table. */
    long number;
    /** Offset of the attribute at the cursor. */
    int attribute;
    /** Offset after the attribute at the cursor. */
    int next;
    private End end = End.UNKNOWN;

    boolean signed() {
        return has(0, 4) && s32(0) == FILE;
    }

    int sequence() {
        return u16(SEQUENCE);
    }

    boolean inUse() {
        return (u16(FLAGS) & IN_USE) != 0;
    }

    boolean directory() {
        return (u16(FLAGS) & DIRECTORY) != 0;
    }

    /** Number of the base record; 0 in a base record. */
    long baseNumber() {
        return u64(BASE) & NUMBER_MASK;
    }

    int baseSequence() {
        return (int) (u64(BASE) >>> 48);
    }

    boolean isBase() {
        return u64(BASE) == 0;
    }

    /** Whether the record has room for its own number: NTFS 3.1 and later. */
    boolean numbered() {
        return u16(FIXUP_OFFSET) >= 0x30;
    }

    /** Whether header and update sequence can be used: the signature stands, the fix-up head is legal, the header was read. */
    boolean usable() {
        return has(0, 0x30) && s32(0) == FILE && (fix() == Fix.GOOD || fix() == Fix.TORN);
    }

    /** Bytes used, at most the size of the record. */
    int used() {
        long used = u32(USED);
        return used > size ? size : (int) used;
    }

    /** Puts the cursor before the first attribute. */
    void rewind() {
        attribute = -1;
        next = u16(FIRST_ATTRIBUTE);
        end = End.NONE;
    }

    /** Goes to the next attribute; false where there is none, and {@link #end} tells why. */
    boolean nextAttribute() {
        int at = next;
        if (at < 0x28 || (at & 7) != 0 || at > size - 4) {
            return stop(End.BROKEN);
        }
        if (!has(at, 4)) {
            return stop(End.UNKNOWN);
        }
        if (s32(at) == AttributeType.END) {
            return stop(End.MARK);
        }
        if (at > size - 24) {
            return stop(End.BROKEN);
        }
        if (!has(at, 24)) {
            return stop(End.UNKNOWN);
        }
        long length = u32(at + 4);
        int least = u8(at + 8) == 0 ? 24 : 64;
        if (length < least || (length & 7) != 0 || length > used() - at) {
            return stop(End.BROKEN);
        }
        attribute = at;
        next = at + (int) length;
        return true;
    }

    private boolean stop(End why) {
        attribute = -1;
        end = why;
        return false;
    }

    /** Why {@link #nextAttribute} gave false. */
    End end() {
        return end;
    }

    int type() {
        return s32(attribute);
    }

    int length() {
        return next - attribute;
    }

    boolean resident() {
        return u8(attribute + 8) == 0;
    }

    int nameLength() {
        return u8(attribute + 9);
    }

    int attributeFlags() {
        return u16(attribute + 0x0C);
    }

    int attributeId() {
        return u16(attribute + 0x0E);
    }

    /** The attribute's name, empty where it has none or its bytes cannot be used. */
    String attributeName() {
        int units = nameLength();
        int at = attribute + u16(attribute + 0x0A);
        return units == 0 || at > next - 2 * units || !has(at, 2 * units) ? "" : utf16(at, units);
    }

    boolean named(String name) {
        if (nameLength() != name.length()) {
            return false;
        }
        int at = attribute + u16(attribute + 0x0A);
        if (at > next - 2 * name.length() || !has(at, 2 * name.length())) {
            return false;
        }
        for (int i = 0; i < name.length(); i++) {
            if (u16(at + 2 * i) != name.charAt(i)) {
                return false;
            }
        }
        return true;
    }

    /** Offset of a resident value, or -1 where it does not lie in the attribute. */
    int valueOffset() {
        int at = attribute + u16(attribute + 0x14);
        return u32(attribute + 0x10) > next - at ? -1 : at;
    }

    /** Bytes of a resident value; meaningful where {@link #valueOffset} is not -1. */
    int valueLength() {
        return (int) u32(attribute + 0x10);
    }

    long lowestVcn() {
        return u64(attribute + 0x10);
    }

    long highestVcn() {
        return u64(attribute + 0x18);
    }

    int runsOffset() {
        return attribute + u16(attribute + 0x20);
    }

    /** log2 of the clusters in a compression unit, 0 where there is none. */
    int compressionUnit() {
        return u8(attribute + 0x22);
    }

    long allocatedSize() {
        return u64(attribute + 0x28);
    }

    long realSize() {
        return u64(attribute + 0x30);
    }

    long initialisedSize() {
        return u64(attribute + 0x38);
    }
}
