package sectorglass.decode.internal.run;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;
import java.util.Arrays;

import io.kaitai.struct.KaitaiStream;
import sectorglass.decode.internal.run.Trouble.Cause;

/**
 * The runtime's stream over a part of one bounded window. Positions are relative to the part; {@link #address} is the image byte.
 * Reads check the end and the read state and throw {@link Undecided}. Bit fields are read in place, so that their exact
 * positions are known.
 */
public final class WindowStream extends ReadOnlyStream {
    private static final VarHandle S2LE = MethodHandles.byteArrayViewVarHandle(short[].class, ByteOrder.LITTLE_ENDIAN);
    private static final VarHandle S4LE = MethodHandles.byteArrayViewVarHandle(int[].class, ByteOrder.LITTLE_ENDIAN);
    private static final VarHandle S8LE = MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.LITTLE_ENDIAN);
    private static final VarHandle S2BE = MethodHandles.byteArrayViewVarHandle(short[].class, ByteOrder.BIG_ENDIAN);
    private static final VarHandle S4BE = MethodHandles.byteArrayViewVarHandle(int[].class, ByteOrder.BIG_ENDIAN);
    private static final VarHandle S8BE = MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.BIG_ENDIAN);

    final Source source;
    final byte[] data;
    /** Index in {@link #data} of the first byte and after the last one. */
    final int start;
    final int end;
    /** Index in {@link #data} of the next byte, or of the one that bits were taken from. */
    int at;
    /** Bits taken from the byte at {@link #at}, 0 to 7. */
    int bit;

    WindowStream(Source source, int start, int end) {
        this.source = source;
        this.data = source.data();
        this.start = start;
        this.end = end;
        this.at = start;
    }

    /** The run that made it. */
    Run run() {
        return source.run();
    }

    /** Image byte of the next byte. */
    public long address() {
        return source.address(index());
    }

    /** Index in the data of the next whole byte. */
    int index() {
        return bit > 0 ? at + 1 : at;
    }

    /** Leaves the rest of the bits of a byte. */
    void align() {
        if (bit > 0) {
            at++;
            bit = 0;
        }
    }

    /** A stream over a part of the same data. */
    WindowStream part(int from, int to) {
        return new WindowStream(source, from, to);
    }

    private int take(int count) {
        align();
        if (end - at < count) {
            throw Undecided.of(Cause.END, String.valueOf(count), String.valueOf(end - at));
        }
        if (!source.isRead(at, count)) {
            throw Undecided.of(Cause.UNREAD);
        }
        int from = at;
        at += count;
        return from;
    }

    /** Whole number in the data; nothing is checked. */
    static long integer(byte[] data, int at, int width, boolean signed, boolean little) {
        switch (width) {
            case 1:
                return signed ? data[at] : data[at] & 0xFF;
            case 2: {
                short value = (short) (little ? S2LE : S2BE).get(data, at);
                return signed ? value : value & 0xFFFF;
            }
            case 4: {
                int value = (int) (little ? S4LE : S4BE).get(data, at);
                return signed ? value : value & 0xFFFFFFFFL;
            }
            default:
                return (long) (little ? S8LE : S8BE).get(data, at);
        }
    }

    /** Unsigned 32 bit, little endian; nothing is checked. */
    static long u4le(byte[] data, int at) {
        return (int) S4LE.get(data, at) & 0xFFFFFFFFL;
    }

    /** 64 bit, little endian; nothing is checked. */
    static long s8le(byte[] data, int at) {
        return (long) S8LE.get(data, at);
    }

    /** Bits of the data as a number; nothing is checked. */
    static long bits(byte[] data, int at, int bit, int count, boolean little) {
        long value = 0;
        int done = 0;
        int index = at;
        int skip = bit;
        while (done < count) {
            int here = Math.min(8 - skip, count - done);
            int octet = data[index++] & 0xFF;
            if (little) {
                value |= (long) (octet >> skip & (1 << here) - 1) << done;
            } else {
                value = value << here | octet >> 8 - skip - here & (1 << here) - 1;
            }
            done += here;
            skip = 0;
        }
        return value;
    }

    @Override
    public void close() {
        // nothing is open
    }

    @Override
    public boolean isEof() {
        return index() >= end && bit == 0;
    }

    @Override
    public void seek(int position) {
        seek((long) position);
    }

    @Override
    public void seek(long position) {
        if (position < 0 || position > size()) {
            throw Undecided.of(Cause.OUTSIDE, String.valueOf(position), String.valueOf(size()));
        }
        bit = 0;
        at = start + (int) position;
    }

    @Override
    public int pos() {
        return index() - start;
    }

    @Override
    public long size() {
        return end - start;
    }

    @Override
    public byte readS1() {
        return data[take(1)];
    }

    @Override
    public short readS2be() {
        return (short) S2BE.get(data, take(2));
    }

    @Override
    public int readS4be() {
        return (int) S4BE.get(data, take(4));
    }

    @Override
    public long readS8be() {
        return (long) S8BE.get(data, take(8));
    }

    @Override
    public short readS2le() {
        return (short) S2LE.get(data, take(2));
    }

    @Override
    public int readS4le() {
        return (int) S4LE.get(data, take(4));
    }

    @Override
    public long readS8le() {
        return (long) S8LE.get(data, take(8));
    }

    @Override
    public int readU1() {
        return readS1() & 0xFF;
    }

    @Override
    public int readU2be() {
        return readS2be() & 0xFFFF;
    }

    @Override
    public long readU4be() {
        return readS4be() & 0xFFFFFFFFL;
    }

    @Override
    public int readU2le() {
        return readS2le() & 0xFFFF;
    }

    @Override
    public long readU4le() {
        return readS4le() & 0xFFFFFFFFL;
    }

    @Override
    public float readF4be() {
        return Float.intBitsToFloat(readS4be());
    }

    @Override
    public double readF8be() {
        return Double.longBitsToDouble(readS8be());
    }

    @Override
    public float readF4le() {
        return Float.intBitsToFloat(readS4le());
    }

    @Override
    public double readF8le() {
        return Double.longBitsToDouble(readS8le());
    }

    @Override
    public void alignToByte() {
        align();
    }

    @Override
    public long readBitsIntBe(int count) {
        return readBits(count, false);
    }

    @Override
    public long readBitsIntLe(int count) {
        return readBits(count, true);
    }

    private long readBits(int count, boolean little) {
        int bytes = (bit + count + 7) / 8;
        if (end - at < bytes) {
            throw Undecided.of(Cause.END, String.valueOf(bytes), String.valueOf(end - at));
        }
        if (!source.isRead(at, bytes)) {
            throw Undecided.of(Cause.UNREAD);
        }
        long value = bits(data, at, bit, count, little);
        skipBits(count);
        return value;
    }

    void skipBits(int count) {
        at += (bit + count) / 8;
        bit = (bit + count) % 8;
    }

    @Override
    protected byte[] readBytesNotAligned(long count) {
        if (count < 0) {
            throw Undecided.of(Cause.NEGATIVE, String.valueOf(count));
        }
        if (count > end - at) {
            throw Undecided.of(Cause.END, String.valueOf(count), String.valueOf(end - at));
        }
        int from = take((int) count);
        return Arrays.copyOfRange(data, from, from + (int) count);
    }

    @Override
    public byte[] readBytesFull() {
        align();
        return readBytesNotAligned(end - at);
    }

    @Override
    public byte[] readBytesTerm(byte terminator, boolean include, boolean consume, boolean eosError) {
        return readBytesTermMulti(new byte[] {terminator}, include, consume, eosError);
    }

    @Override
    public byte[] readBytesTermMulti(byte[] terminator, boolean include, boolean consume, boolean eosError) {
        align();
        int found = find(data, at, end, terminator);
        if (found < 0 && eosError) {
            throw Undecided.of(Cause.NO_TERMINATOR);
        }
        int stop = found < 0 ? end : include ? found + terminator.length : found;
        byte[] bytes = readBytesNotAligned(stop - at);
        at = found < 0 ? end : consume ? found + terminator.length : found;
        return bytes;
    }

    /** Index of a terminator at a multiple of its length from {@code from}, or -1. */
    static int find(byte[] data, int from, int to, byte[] terminator) {
        int width = terminator.length;
        for (int i = from; i <= to - width; i += width) {
            int same = 0;
            while (same < width && data[i + same] == terminator[same]) {
                same++;
            }
            if (same == width) {
                return i;
            }
        }
        return -1;
    }

    @Override
    public KaitaiStream substream(long count) {
        if (count < 0 || count > end - index()) {
            throw Undecided.of(Cause.END, String.valueOf(count), String.valueOf(end - index()));
        }
        align();
        WindowStream part = part(at, at + (int) count);
        at += (int) count;
        return part;
    }
}
