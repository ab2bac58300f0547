package sectorglass.decode.internal.run;

import sectorglass.decode.FieldNode;
import sectorglass.image.Window;

/**
 * Bytes that streams are cut from: those of the window, or those that a process step made.
 *
 * @param run the run it belongs to
 * @param data the bytes
 * @param window the window whose offsets are those of {@code data}, or null for made bytes
 * @param allRead whether no byte is missing
 * @param origin the field the made bytes stand for, or null
 */
record Source(Run run, byte[] data, Window window, boolean allRead, FieldNode origin) {

    boolean isRead(int at, int count) {
        return allRead || window.isRead(at, count);
    }

    /** Image byte of an offset; for made bytes, that of their field. */
    long address(int at) {
        return window != null ? window.address(Math.min(at, window.length())) : origin.firstByte();
    }

    /** Offset in the decoded window. */
    long offset(int at) {
        return window != null ? at : origin.offset();
    }

    /** Bytes of the image that a part stands in. */
    long length(int length) {
        return window != null || length == 0 ? length : origin.length();
    }

    /** Index of the first byte at or after {@code from} that was not read, at most {@code to}. */
    int firstUnread(int from, int to) {
        if (allRead || from >= to || window.isRead(from, to - from)) {
            return to;
        }
        int at = from;
        int step = window.sectorSize();
        while (at < to) {
            int next = Math.min(to, at + step - (int) Math.floorMod(window.address(at), (long) step));
            if (!window.isRead(at, next - at)) {
                break;
            }
            at = next;
        }
        // within one piece the state changes at sector borders only; a joined window may change inside
        while (at < to && window.isRead(at, 1)) {
            at++;
        }
        return at;
    }
}
