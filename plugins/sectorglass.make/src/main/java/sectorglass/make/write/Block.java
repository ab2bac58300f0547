package sectorglass.make.write;

import java.nio.charset.StandardCharsets;
import java.util.UUID;

/** An array of bytes with setters for the little-endian fields that all maps and volumes made here have. */
public final class Block {
    private final byte[] bytes;

    /** A block of zeros. */
    public Block(int length) {
        this(new byte[length]);
    }

    /** A view of an array: what is set here is set there. */
    public Block(byte[] bytes) {
        this.bytes = bytes;
    }

    /** The array itself. */
    public byte[] bytes() {
        return bytes;
    }

    /** Sets one byte. */
    public Block u8(int at, int value) {
        bytes[at] = (byte) value;
        return this;
    }

    /** Sets two bytes. */
    public Block u16(int at, int value) {
        bytes[at] = (byte) value;
        bytes[at + 1] = (byte) (value >> 8);
        return this;
    }

    /** Sets four bytes. */
    public Block u32(int at, long value) {
        u16(at, (int) value);
        return u16(at + 2, (int) (value >> 16));
    }

    /** Sets eight bytes. */
    public Block u64(int at, long value) {
        u32(at, value);
        return u32(at + 4, value >> 32);
    }

    /** Copies bytes. */
    public Block put(int at, byte... from) {
        System.arraycopy(from, 0, bytes, at, from.length);
        return this;
    }

    /** Sets ASCII characters. */
    public Block ascii(int at, String text) {
        return put(at, text.getBytes(StandardCharsets.US_ASCII));
    }

    /** Sets the UTF-16 units of a text, without a terminator. */
    public Block utf16(int at, String text) {
        for (int i = 0; i < text.length(); i++) {
            u16(at + 2 * i, text.charAt(i));
        }
        return this;
    }

    /**
     * Sets a GUID: the first three groups little-endian, the rest in the order of the text (UEFI 2.10, appendix A).
     */
    public Block guid(int at, UUID guid) {
        long high = guid.getMostSignificantBits();
        u32(at, high >>> 32).u16(at + 4, (int) (high >>> 16)).u16(at + 6, (int) high);
        long low = guid.getLeastSignificantBits();
        for (int i = 0; i < 8; i++) {
            u8(at + 8 + i, (int) (low >>> 56 - 8 * i));
        }
        return this;
    }

    /** Two bytes as a number. */
    public int u16(int at) {
        return bytes[at] & 0xFF | (bytes[at + 1] & 0xFF) << 8;
    }

    /** Four bytes as a number. */
    public long u32(int at) {
        return u16(at) | (long) u16(at + 2) << 16;
    }
}
