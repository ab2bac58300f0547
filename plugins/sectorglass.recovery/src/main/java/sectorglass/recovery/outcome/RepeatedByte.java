package sectorglass.recovery.outcome;

import java.util.OptionalInt;

import sectorglass.disk.Content;
import sectorglass.image.Progress;

/**
 * Whether a file that was read in full is empty inside: one byte repeated from the first to the last. Such files come from writes that were
 * never finished and from media that answer with filler. Reading stops at the first other byte, in nearly all files in the first piece.
 */
final class RepeatedByte {
    /** Shorter files may well hold one byte on purpose. */
    private static final int SHORTEST = 16;
    private static final int FIRST = 512;
    private static final int PIECE = 1 << 20;

    private RepeatedByte() {
    }

    /** The byte, 0 to 255; empty where the content differs, is too short or was not read in full. */
    static OptionalInt of(Content content, Progress progress) {
        long bytes = content.bytes();
        if (bytes < SHORTEST) {
            return OptionalInt.empty();
        }
        byte[] first = new byte[(int) Math.min(FIRST, bytes)];
        if (!content.read(0, first, 0, first.length).isEmpty() || !same(first, first.length, first[0])) {
            return OptionalInt.empty();
        }
        byte[] piece = bytes > FIRST ? new byte[(int) Math.min(PIECE, bytes)] : first;
        for (long at = first.length; at < bytes;) {
            progress.checkCancelled();
            int length = (int) Math.min(piece.length, bytes - at);
            if (!content.read(at, piece, 0, length).isEmpty() || !same(piece, length, first[0])) {
                return OptionalInt.empty();
            }
            at += length;
        }
        return OptionalInt.of(first[0] & 0xFF);
    }

    private static boolean same(byte[] bytes, int length, byte value) {
        for (int i = 0; i < length; i++) {
            if (bytes[i] != value) {
                return false;
            }
        }
        return true;
    }
}
