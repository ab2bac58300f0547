package sectorglass.decode.internal.run;

import sectorglass.decode.internal.run.Trouble.Cause;

/**
 * The bytes that a field takes and those of its value: {@code size}, {@code size-eos}, {@code terminator}, {@code pad-right}.
 *
 * @param size number of bytes, or null
 * @param eos whether it takes the rest of the stream
 * @param terminator the bytes that end it, or null
 * @param include whether the terminator belongs to the value
 * @param consume whether the next field follows the terminator
 * @param eosError whether a missing terminator is a mistake
 * @param pad the byte that fills it up at the end, or -1
 */
public record Extent(Expr size, boolean eos, byte[] terminator, boolean include, boolean consume, boolean eosError, int pad) {

    /** Finds the bytes, goes behind them, and puts the answer into {@link Run#measure}. */
    void measure(Run run, StructNode self, WindowStream io) {
        io.align();
        Measure m = run.measure;
        m.offset = io.at;
        m.from = io.at;
        m.to = io.at;
        m.length = 0;
        m.trouble = null;
        m.present = false;
        if (size == null && !eos) {
            untilTerminator(run, io, m);
            return;
        }
        long wanted = io.end - io.at;
        if (size != null) {
            try {
                wanted = size.asLong(self);
            } catch (Undecided e) {
                lose(run, m, e.trouble());
                return;
            }
            if (wanted < 0) {
                lose(run, m, new Trouble(Cause.NEGATIVE, size.type().unsigned64() ? Long.toUnsignedString(wanted) : String.valueOf(wanted)));
                return;
            }
        }
        m.offset = io.at; // an expression may not move the stream, an instance puts it back
        m.from = io.at;
        int there = io.end - io.at;
        if (wanted > there) {
            m.trouble = new Trouble(Cause.END, String.valueOf(wanted), String.valueOf(there));
            run.clips++;
        }
        m.length = (int) Math.min(wanted, there);
        m.to = io.at + m.length;
        io.at = m.to;
        trim(io, m);
    }

    private static void lose(Run run, Measure m, Trouble trouble) {
        m.trouble = trouble;
        run.lost = trouble;
    }

    private void trim(WindowStream io, Measure m) {
        int known = io.source.allRead() ? m.to : io.source.firstUnread(m.from, m.to);
        m.present = known == m.to;
        boolean padded = pad >= 0 && !(terminator != null && terminator.length == 1 && (terminator[0] & 0xFF) == pad);
        if (padded && m.present) {
            while (m.to > m.from && (io.data[m.to - 1] & 0xFF) == pad) {
                m.to--;
            }
        }
        if (terminator != null && (m.present || !padded)) {
            int found = WindowStream.find(io.data, m.from, Math.min(m.to, known), terminator);
            if (found >= 0) {
                m.to = include ? found + terminator.length : found;
                m.present = true;
            }
        }
        if (!m.present) {
            m.trouble = new Trouble(Cause.UNREAD);
        }
    }

    private void untilTerminator(Run run, WindowStream io, Measure m) {
        int known = io.source.allRead() ? io.end : io.source.firstUnread(io.at, io.end);
        int found = WindowStream.find(io.data, io.at, known, terminator);
        if (found < 0 && known < io.end) {
            lose(run, m, new Trouble(Cause.UNREAD));
            return;
        }
        m.present = true;
        if (found < 0) {
            m.to = io.end;
            m.length = io.end - io.at;
            io.at = io.end;
            if (eosError) {
                m.trouble = new Trouble(Cause.NO_TERMINATOR);
                run.clips++;
            }
            return;
        }
        m.to = include ? found + terminator.length : found;
        io.at = consume ? found + terminator.length : found;
        m.length = io.at - m.offset;
    }
}
