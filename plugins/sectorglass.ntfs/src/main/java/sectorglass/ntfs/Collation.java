package sectorglass.ntfs;

/**
 * Order of names in a folder: by UTF-16 unit, capital letters through $UpCase, then by length. Where $UpCase was not read, Java's own
 * capital letters serve. Source: NTFS-3G libntfs-3g/unistr.c, ntfs_names_full_collate.
 */
final class Collation {
    private static final int UPCASE = 10;
    private static final int BYTES = 131_072;

    private final char[] upper = new char[65536];
    private final boolean own;

    Collation(FileTable table) {
        FileRecord file = FileRecord.of(table, UPCASE);
        FileStream stream = file == null ? null : file.stream(AttributeType.DATA, "").filter(s -> !s.resident && s.real >= BYTES).orElse(null);
        StreamPart part = stream == null ? null : StreamPart.read(table.image(), table.geometry(), stream.runs, 0, BYTES);
        own = part != null && part.isRead(0, BYTES);
        for (int i = 0; i < upper.length; i++) {
            upper[i] = own ? (char) (part.bytes[2 * i] & 0xFF | (part.bytes[2 * i + 1] & 0xFF) << 8) : Character.toUpperCase((char) i);
        }
    }

    /** Whether the volume's own table is used. */
    boolean own() {
        return own;
    }

    char upper(int c) {
        return upper[c];
    }

    /** Compares two names where they stand. */
    int compare(FixedBlock a, int aAt, int aUnits, FixedBlock b, int bAt, int bUnits) {
        int common = Math.min(aUnits, bUnits);
        for (int i = 0; i < common; i++) {
            int difference = upper[a.u16(aAt + 2 * i)] - upper[b.u16(bAt + 2 * i)];
            if (difference != 0) {
                return difference;
            }
        }
        return aUnits - bUnits;
    }
}
