package sectorglass.recovery.propose;

import java.math.BigInteger;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.Locale;

import sectorglass.decode.FieldNode;
import sectorglass.decode.FieldWalk;
import sectorglass.image.Window;

/** The bytes of a field for a value that a person gives as text: a number, a GUID, a text or bytes in hex. */
public final class FieldValue {
    private final FieldNode field;
    private final byte[] stored;
    private final Kind kind;
    private final boolean little;
    private final Charset charset;

    /** How the value is written. */
    public enum Kind {
        /** Decimal, or hex with 0x in front. */
        NUMBER,
        /** Eight, four, four, four and twelve hex digits. */
        GUID,
        /** Text, not longer than the field. */
        TEXT,
        /** As many bytes as the field has, in hex. */
        BYTES
    }

    private FieldValue(FieldNode field, byte[] stored, Kind kind, boolean little, Charset charset) {
        this.field = field;
        this.stored = stored;
        this.kind = kind;
        this.little = little;
        this.charset = charset;
    }

    /**
     * A field that can be changed: a value of whole bytes that were read.
     *
     * @param root the structure it belongs to: tells the order of bytes where the field alone does not
     * @param window bytes of the structure as they stand now
     * @return null where it cannot be changed: a computed value, single bits, unread bytes
     */
    public static FieldValue of(FieldNode field, FieldNode root, Window window) {
        long at = field.firstByte() - window.start();
        if (field.kind() != FieldNode.Kind.VALUE || field.computed() || field.bits() >= 0 || field.length() <= 0 || at < 0
                || !window.contiguous() || at + field.length() > window.length() || !window.isRead((int) at, (int) field.length())) {
            return null;
        }
        byte[] stored = window.raw((int) at, (int) field.length());
        String unit = field.unit() == null ? "" : field.unit();
        if (stored.length == 16 && (unit.startsWith("guid") || unit.equals("uuid"))) {
            return new FieldValue(field, stored, Kind.GUID, unit.equals("guid"), null);
        }
        if (field.raw() instanceof Long && stored.length <= 8) {
            Boolean own = order(field, stored);
            return new FieldValue(field, stored, Kind.NUMBER, own != null ? own : order(root, window), null);
        }
        if (field.raw() instanceof String text) {
            boolean wide = stored.length % 2 == 0 && new String(stored, StandardCharsets.UTF_16LE).startsWith(text) && !text.isEmpty()
                    || unit.contains("utf16");
            return new FieldValue(field, stored, Kind.TEXT, true, wide ? StandardCharsets.UTF_16LE : StandardCharsets.ISO_8859_1);
        }
        return new FieldValue(field, stored, Kind.BYTES, true, null);
    }

    /** Whether the bytes of a number stand little end first; null where both orders give the same. */
    private static Boolean order(FieldNode field, byte[] stored) {
        long one = number(stored, true);
        long two = number(stored, false);
        long raw = (Long) field.raw() & mask(stored.length);
        return one == two ? null : raw == one ? Boolean.TRUE : raw == two ? Boolean.FALSE : null;
    }

    private static boolean order(FieldNode root, Window window) {
        for (FieldNode node : FieldWalk.values(root)) {
            long at = node.firstByte() - window.start();
            if (node.raw() instanceof Long && node.bits() < 0 && node.length() > 1 && node.length() <= 8 && at >= 0
                    && at + node.length() <= window.length() && window.isRead((int) at, (int) node.length())) {
                Boolean known = order(node, window.raw((int) at, (int) node.length()));
                if (known != null) {
                    return known;
                }
            }
        }
        return true;
    }

    private static long mask(int bytes) {
        return bytes >= 8 ? -1L : (1L << 8 * bytes) - 1;
    }

    private static long number(byte[] bytes, boolean little) {
        long value = 0;
        for (int i = 0; i < bytes.length; i++) {
            value = value << 8 | bytes[little ? bytes.length - 1 - i : i] & 0xFF;
        }
        return value;
    }

    /** How it is written. */
    public Kind kind() {
        return kind;
    }

    /** The field. */
    public FieldNode field() {
        return field;
    }

    /** The value as it stands, in the form that {@link #bytes} reads. */
    public String text() {
        return switch (kind) {
            case NUMBER -> Long.toUnsignedString(number(stored, little));
            case GUID -> guid(stored);
            case TEXT -> strip(new String(stored, charset));
            case BYTES -> HexFormat.ofDelimiter(" ").withUpperCase().formatHex(stored);
        };
    }

    private static String strip(String text) {
        int end = text.indexOf(0);
        return end < 0 ? text.stripTrailing() : text.substring(0, end);
    }

    /**
     * The bytes for a value.
     *
     * @throws IllegalArgumentException where the text is no such value, or does not fit
     */
    public byte[] bytes(String text) {
        return switch (kind) {
            case NUMBER -> ofNumber(text.strip());
            case GUID -> ofGuid(text.strip());
            case TEXT -> ofText(text);
            case BYTES -> ofHex(text);
        };
    }

    private byte[] ofNumber(String text) {
        BigInteger value = text.toLowerCase(Locale.ROOT).startsWith("0x") ? new BigInteger(text.substring(2), 16)
                : new BigInteger(text.replaceAll("[\\s\\u2009]", ""));
        int bits = 8 * stored.length;
        if (value.bitLength() > bits || value.signum() < 0 && value.bitLength() >= bits) {
            throw new IllegalArgumentException("more than " + bits + " bits");
        }
        long number = value.longValue();
        byte[] bytes = new byte[stored.length];
        for (int i = 0; i < bytes.length; i++) {
            bytes[little ? i : bytes.length - 1 - i] = (byte) (number >>> 8 * i);
        }
        return bytes;
    }

    private static final int[] MIXED = {3, 2, 1, 0, 5, 4, 7, 6, 8, 9, 10, 11, 12, 13, 14, 15};

    private String guid(byte[] bytes) {
        byte[] straight = new byte[16];
        for (int i = 0; i < 16; i++) {
            straight[i] = bytes[little ? MIXED[i] : i];
        }
        String hex = HexFormat.of().formatHex(straight);
        return hex.substring(0, 8) + "-" + hex.substring(8, 12) + "-" + hex.substring(12, 16) + "-" + hex.substring(16, 20) + "-" + hex.substring(20);
    }

    private byte[] ofGuid(String text) {
        if (!text.matches("[0-9A-Fa-f]{8}(-[0-9A-Fa-f]{4}){3}-[0-9A-Fa-f]{12}")) {
            throw new IllegalArgumentException("a GUID has 8, 4, 4, 4 and 12 hex digits");
        }
        byte[] straight = HexFormat.of().parseHex(text.replace("-", ""));
        byte[] bytes = new byte[16];
        for (int i = 0; i < 16; i++) {
            bytes[little ? MIXED[i] : i] = straight[i];
        }
        return bytes;
    }

    private byte[] ofText(String text) {
        byte[] given = text.getBytes(charset);
        if (given.length > stored.length || !new String(given, charset).equals(text)) {
            throw new IllegalArgumentException("at most " + stored.length + " bytes, and only characters that the field can hold");
        }
        boolean blanks = stored[stored.length - 1] == ' ' && charset != StandardCharsets.UTF_16LE;
        byte[] bytes = new byte[stored.length];
        Arrays.fill(bytes, blanks ? (byte) ' ' : 0);
        System.arraycopy(given, 0, bytes, 0, given.length);
        return bytes;
    }

    private byte[] ofHex(String text) {
        byte[] bytes = HexFormat.of().parseHex(text.replaceAll("\\s", ""));
        if (bytes.length != stored.length) {
            throw new IllegalArgumentException(bytes.length + " bytes given, " + stored.length + " needed");
        }
        return bytes;
    }
}
