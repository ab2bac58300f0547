package sectorglass.make.ext;

/** CRC-32C without inversion, as ext4 chains it: polynomial 82F63B78, reflected. */
public final class Crc32c {
    private static final int POLYNOMIAL = 0x82F63B78;
    private static final int[] TABLE = new int[256];

    static {
        for (int i = 0; i < 256; i++) {
            int value = i;
            for (int bit = 0; bit < 8; bit++) {
                value = (value & 1) != 0 ? value >>> 1 ^ POLYNOMIAL : value >>> 1;
            }
            TABLE[i] = value;
        }
    }

    private Crc32c() {
    }

    /** Goes on over some bytes. */
    public static int of(int start, byte[] bytes, int from, int length) {
        int crc = start;
        for (int i = from; i < from + length; i++) {
            crc = crc >>> 8 ^ TABLE[(crc ^ bytes[i]) & 0xFF];
        }
        return crc;
    }

    /** Goes on over an array. */
    public static int of(int start, byte[] bytes) {
        return of(start, bytes, 0, bytes.length);
    }

    /** Goes on over four bytes, lowest first. */
    public static int of(int start, long value) {
        return of(start, new byte[] {(byte) value, (byte) (value >> 8), (byte) (value >> 16), (byte) (value >> 24)});
    }
}
