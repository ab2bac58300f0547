package sectorglass.disk;

import java.util.Arrays;

/** Names one after the other: a head with the length, then one byte per character, or two where one of them is beyond U+00FF. */
final class NamePool {
    private static final int MOST = 65535;

    private byte[] bytes = new byte[1 << 10];
    private int used;

    /** Adds a name; longer ones than 65535 characters are cut. */
    int add(String name) {
        int length = Math.min(MOST, name.length());
        boolean wide = false;
        for (int i = 0; i < length && !wide; i++) {
            wide = name.charAt(i) > 0xFF;
        }
        int head = length < 127 ? 1 : 3;
        int size = head + (wide ? 2 * length : length);
        if (used > Integer.MAX_VALUE - 64 - size) {
            return -1;
        }
        if (used + size > bytes.length) {
            bytes = Arrays.copyOf(bytes, (int) Math.min(Integer.MAX_VALUE - 64L, Math.max(used + size, bytes.length * 3L / 2)));
        }
        int at = used;
        int flag = wide ? 0x80 : 0;
        if (head == 1) {
            bytes[used++] = (byte) (flag | length);
        } else {
            bytes[used++] = (byte) (flag | 127);
            bytes[used++] = (byte) (length >> 8);
            bytes[used++] = (byte) length;
        }
        for (int i = 0; i < length; i++) {
            char c = name.charAt(i);
            if (wide) {
                bytes[used++] = (byte) (c >> 8);
            }
            bytes[used++] = (byte) c;
        }
        return at;
    }

    String get(int at) {
        if (at < 0) {
            return "";
        }
        int length = bytes[at] & 0x7F;
        boolean wide = bytes[at] < 0;
        int from = at + 1;
        if (length == 127) {
            length = (bytes[at + 1] & 0xFF) << 8 | bytes[at + 2] & 0xFF;
            from += 2;
        }
        if (!wide) {
            return new String(bytes, from, length, java.nio.charset.StandardCharsets.ISO_8859_1);
        }
        char[] chars = new char[length];
        for (int i = 0; i < length; i++) {
            chars[i] = (char) ((bytes[from + 2 * i] & 0xFF) << 8 | bytes[from + 2 * i + 1] & 0xFF);
        }
        return new String(chars);
    }

    void trim() {
        bytes = Arrays.copyOf(bytes, used);
    }
}
