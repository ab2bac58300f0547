package sectorglass.filetest;

/** The checksum of PST mail stores: the table of CRC-32 (polynomial EDB88320), but begun with 0 and not inverted ([MS-PST], section 5.3; from memory). */
final class PstCrc {
    private static final int[] TABLE = new int[256];

    static {
        for (int i = 0; i < TABLE.length; i++) {
            int value = i;
            for (int bit = 0; bit < 8; bit++) {
                value = (value & 1) == 0 ? value >>> 1 : value >>> 1 ^ 0xEDB88320;
            }
            TABLE[i] = value;
        }
    }

    private PstCrc() {
    }

    /** The checksum of the first bytes, as an unsigned number. */
    static long of(byte[] bytes, int length) {
        int crc = 0;
        for (int i = 0; i < length; i++) {
            crc = TABLE[(crc ^ bytes[i]) & 0xFF] ^ crc >>> 8;
        }
        return crc & 0xFFFFFFFFL;
    }
}
