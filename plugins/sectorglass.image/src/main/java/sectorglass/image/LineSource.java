package sectorglass.image;

import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;

/**
 * The lines of a text file as bytes, one at a time: LF, CRLF or CR ends a line, a UTF-8 byte order mark is left out. Bounded memory
 * whatever the file holds.
 */
final class LineSource implements Closeable {
    /** Longest line that is taken, in bytes. */
    static final int LONGEST = 1 << 16;

    private final InputStream in;
    private final byte[] buffer = new byte[1 << 17];
    private int next;
    private int filled;
    private boolean ended;
    private long number;
    /** Holds the current line: the buffer, or what stands for the line. */
    private byte[] view = buffer;
    private int from;
    private int to;

    LineSource(InputStream in) throws IOException {
        this.in = in;
        fill();
        if (filled >= 3 && (buffer[0] & 0xFF) == 0xEF && (buffer[1] & 0xFF) == 0xBB && (buffer[2] & 0xFF) == 0xBF) {
            next = 3;
        }
    }

    /** Whether the file begins with a UTF-16 byte order mark. */
    boolean utf16() {
        return filled >= 2 && ((buffer[0] & 0xFF) == 0xFF && (buffer[1] & 0xFF) == 0xFE
                || (buffer[0] & 0xFF) == 0xFE && (buffer[1] & 0xFF) == 0xFF);
    }

    /** Goes to the next line; false where there is none. A line longer than {@link #LONGEST} comes back cut off, see {@link #tooLong}. */
    boolean advance() throws IOException {
        int at = next;
        while (true) {
            for (; at < filled; at++) {
                byte b = buffer[at];
                if (b == '\n' || b == '\r') {
                    take(at);
                    next = at + 1;
                    if (b == '\r') {
                        skipLineFeed();
                    }
                    return true;
                }
            }
            if (at - next > LONGEST || ended) {
                if (at == next) {
                    return false;
                }
                take(at);
                next = at;
                return true;
            }
            at -= next;
            fill();
            at += next;
        }
    }

    private void take(int end) {
        view = buffer;
        from = next;
        to = end;
        number++;
    }

    /** Puts another text in the place of the current line. */
    void replace(String text) {
        view = text.getBytes(StandardCharsets.UTF_8);
        from = 0;
        to = view.length;
    }

    private void skipLineFeed() throws IOException {
        if (next == filled) {
            // the line just taken must stay where it is: keep it in front of what is read now
            int length = to - from;
            int room = filled - from;
            System.arraycopy(buffer, from, buffer, 0, room);
            from = 0;
            to = length;
            next = room;
            filled = room;
            int got = in.read(buffer, filled, buffer.length - filled);
            ended = got < 0;
            filled += Math.max(0, got);
        }
        if (next < filled && buffer[next] == '\n') {
            next++;
        }
    }

    private void fill() throws IOException {
        System.arraycopy(buffer, next, buffer, 0, filled - next);
        filled -= next;
        next = 0;
        int got = in.read(buffer, filled, buffer.length - filled);
        ended = got < 0;
        filled += Math.max(0, got);
    }

    /** Number of the current line, from 1. */
    long number() {
        return number;
    }

    /** Whether the file ends in the current line. */
    boolean unfinished() {
        return ended && next == filled && (filled == 0 || buffer[filled - 1] != '\n' && buffer[filled - 1] != '\r');
    }

    /** Whether the current line is longer than this class takes. */
    boolean tooLong() {
        return to - from > LONGEST;
    }

    /** Length of the current line in bytes. */
    int length() {
        return to - from;
    }

    /** A byte of the current line, 0 to 255. */
    int at(int index) {
        return view[from + index] & 0xFF;
    }

    /** Part of the current line as UTF-8 text. */
    String text(int start, int end) {
        return new String(view, from + start, end - start, StandardCharsets.UTF_8);
    }

    /** The current line as UTF-8 text. */
    String text() {
        return text(0, length());
    }

    @Override
    public void close() throws IOException {
        in.close();
    }
}
