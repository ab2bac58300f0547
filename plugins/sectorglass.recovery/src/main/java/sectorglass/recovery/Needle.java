package sectorglass.recovery;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.util.Arrays;

/**
 * Bytes to look for, some of them open.
 *
 * @param bytes the bytes; not copied
 * @param mask per byte the bits that count: 0xFF exact, 0 open, 0xF0 or 0x0F half a byte
 */
public record Needle(byte[] bytes, byte[] mask) {

    /** @throws IllegalArgumentException unless 1 to 4,096 bytes with at least one that counts whole */
    public Needle {
        if (bytes.length == 0 || bytes.length > 4096 || bytes.length != mask.length) {
            throw new IllegalArgumentException("A needle has 1 to 4,096 bytes, this one has " + bytes.length + ".");
        }
        boolean whole = false;
        for (byte b : mask) {
            whole |= b == (byte) 0xFF;
        }
        if (!whole) {
            throw new IllegalArgumentException("At least one byte of the needle must be given whole.");
        }
    }

    /** Exact bytes. */
    public static Needle of(byte[] bytes) {
        byte[] mask = new byte[bytes.length];
        Arrays.fill(mask, (byte) 0xFF);
        return new Needle(bytes, mask);
    }

    /**
     * Hex digits in pairs, blanks allowed, {@code ?} for an open half byte: {@code 55 AA ?? 0?}.
     *
     * @throws IllegalArgumentException with a sentence for people
     */
    public static Needle ofHex(String hex) {
        String digits = hex.replaceAll("\\s+", "");
        if (digits.isEmpty() || digits.length() % 2 != 0) {
            throw new IllegalArgumentException("Hex bytes come in pairs of digits; \"" + hex + "\" has " + digits.length() + " digits.");
        }
        byte[] bytes = new byte[digits.length() / 2];
        byte[] mask = new byte[bytes.length];
        for (int i = 0; i < digits.length(); i++) {
            char c = digits.charAt(i);
            int shift = i % 2 == 0 ? 4 : 0;
            if (c != '?') {
                int value = Character.digit(c, 16);
                if (value < 0) {
                    throw new IllegalArgumentException("\"" + c + "\" is no hex digit; an open half byte is written ?.");
                }
                bytes[i / 2] |= (byte) (value << shift);
                mask[i / 2] |= (byte) (0xF << shift);
            }
        }
        return new Needle(bytes, mask);
    }

    /** @throws IllegalArgumentException if the character set cannot write the text */
    public static Needle ofText(String text, Charset charset) {
        try {
            ByteBuffer bytes = charset.newEncoder().onUnmappableCharacter(CodingErrorAction.REPORT)
                    .encode(java.nio.CharBuffer.wrap(text));
            byte[] plain = new byte[bytes.remaining()];
            bytes.get(plain);
            return of(plain);
        } catch (CharacterCodingException e) {
            throw new IllegalArgumentException("\"" + text + "\" cannot be written in " + charset.name() + ".", e);
        }
    }

    /**
     * A number.
     *
     * @param width 1, 2, 4 or 8 bytes; the value must fit, signed or unsigned
     */
    public static Needle ofNumber(long value, int width, ByteOrder order) {
        boolean fits = width == 8 || width == 1 || width == 2 || width == 4;
        if (width < 8) {
            fits &= value < 1L << 8 * width && value >= -(1L << 8 * width - 1);
        }
        if (!fits) {
            throw new IllegalArgumentException(value + " does not fit into " + width + " bytes (1, 2, 4 or 8).");
        }
        byte[] bytes = new byte[width];
        for (int i = 0; i < width; i++) {
            int shift = 8 * (order == ByteOrder.LITTLE_ENDIAN ? i : width - 1 - i);
            bytes[i] = (byte) (value >>> shift);
        }
        return of(bytes);
    }

    /** Number of bytes. */
    public int length() {
        return bytes.length;
    }

    boolean matches(byte[] in, int at) {
        for (int i = 0; i < bytes.length; i++) {
            if (((in[at + i] ^ bytes[i]) & mask[i]) != 0) {
                return false;
            }
        }
        return true;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Needle that && Arrays.equals(bytes, that.bytes) && Arrays.equals(mask, that.mask);
    }

    @Override
    public int hashCode() {
        return 31 * Arrays.hashCode(bytes) + Arrays.hashCode(mask);
    }
}
