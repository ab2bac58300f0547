package sectorglass.ntfs;

import java.util.Optional;

/** Which blocks of a folder's index are in use; a bit that was not read counts as set. */
final class IndexBitmap {
    private static final int MOST_BYTES = 2 << 20;

    private final byte[] bits;

    private IndexBitmap(byte[] bits) {
        this.bits = bits;
    }

    static IndexBitmap of(FileTable table, FileRecord folder) {
        Optional<FileStream> bitmap = folder.stream(AttributeType.BITMAP, DirectoryIndex.I30);
        if (bitmap.isEmpty()) {
            return new IndexBitmap(null);
        }
        FileStream stream = bitmap.get();
        byte[] bits;
        if (stream.resident) {
            bits = stream.value.clone();
            for (int i = 0; i < bits.length && stream.valueRead != null; i++) {
                bits[i] = stream.valueRead[i] ? bits[i] : (byte) 0xFF;
            }
        } else {
            int length = (int) Math.min(MOST_BYTES, Math.max(0, stream.real));
            StreamPart part = StreamPart.read(table.image(), table.geometry(), stream.runs, 0, length);
            bits = part.bytes;
            for (int i = 0; i < length; i += 512) {
                int n = Math.min(512, length - i);
                if (!part.isRead(i, n)) {
                    java.util.Arrays.fill(bits, i, i + n, (byte) 0xFF);
                }
            }
        }
        return new IndexBitmap(bits);
    }

    boolean get(long block) {
        return bits == null || (block >> 3 < bits.length && (bits[(int) (block >> 3)] & 1 << (block & 7)) != 0);
    }

    boolean any(long first, int count) {
        for (long i = first; i < first + count; i++) {
            if (get(i)) {
                return true;
            }
        }
        return false;
    }
}
