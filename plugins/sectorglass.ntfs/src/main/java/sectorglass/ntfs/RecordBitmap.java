package sectorglass.ntfs;

import sectorglass.image.SectorRanges;

/** The bitmap of $MFT: which records are in use; some of it may not have been read. */
final class RecordBitmap {
    private static final int MOST_BYTES = 1 << 28;

    private final byte[] bits;
    private final java.util.BitSet unreadBlocks = new java.util.BitSet();
    private SectorRanges missing = SectorRanges.EMPTY;

    RecordBitmap(FileTable table) {
        FileRecord mft = FileRecord.of(table, 0);
        FileStream stream = mft == null ? null : mft.stream(AttributeType.BITMAP, "").orElse(null);
        if (stream == null) {
            bits = new byte[0];
        } else if (stream.resident) {
            bits = stream.value;
            if (stream.valueRead != null) {
                unreadBlocks.set(0);
            }
        } else {
            int length = (int) Math.min(Math.min(MOST_BYTES, stream.real), (table.records() + 7) / 8);
            StreamPart part = StreamPart.read(table.image(), table.geometry(), stream.runs, 0, length);
            bits = part.bytes;
            missing = part.missing(0, length);
            for (int i = 0; i < length; i += 512) {
                if (!part.isRead(i, Math.min(512, length - i))) {
                    unreadBlocks.set(i / 512);
                }
            }
        }
    }

    /** Whether the record is in use; null where that was not read or the bitmap is too short. */
    Boolean inUse(long record) {
        long at = record >> 3;
        if (at >= bits.length || unreadBlocks.get((int) (at / 512))) {
            return null;
        }
        return (bits[(int) at] >> (record & 7) & 1) != 0;
    }

    SectorRanges missing() {
        return missing;
    }
}
