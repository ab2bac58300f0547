package sectorglass.ntfs;

/** One attribute of a file put together from all records that hold a piece of it: where its bytes are. */
final class FileStream {
    static final int COMPRESSED = 0x0001;
    static final int COMPRESSED_MASK = 0x00FF;
    static final int ENCRYPTED = 0x4000;
    static final int SPARSE = 0x8000;

    final int type;
    final String name;
    int flags;
    /** Attribute id and record of its first piece. */
    int id;
    long record;
    /** Image byte of the attribute's header in that record, or negative. */
    long headerByte = -1;
    boolean resident;
    /** The resident value as it stands; bytes that {@link #valueRead} calls unread mean nothing. */
    byte[] value;
    /** For each byte of a resident value whether it was read and not torn; null where all were. */
    boolean[] valueRead;
    /** Image byte of the resident value's first byte, or negative. */
    long valueByte = -1;
    final RunList runs = new RunList();
    /** Whether the piece with the sizes was found. */
    boolean sized;
    /** Whether a piece is missing, or its runs break off. */
    boolean incomplete;
    long allocated;
    long real;
    long initialised;
    int unit;

    FileStream(int type, String name) {
        this.type = type;
        this.name = name;
    }

    boolean compressed() {
        return (flags & COMPRESSED_MASK) != 0;
    }

    boolean encrypted() {
        return (flags & ENCRYPTED) != 0;
    }

    /** Bytes of its content, or -1 where not known. */
    long size() {
        return resident ? value.length : sized ? real : -1;
    }

    /** Whether the resident value was read whole. */
    boolean valueWhole() {
        return resident && valueRead == null;
    }
}
