package sectorglass.ext;

import java.util.zip.CRC32C;

/**
 * The checksums of ext: CRC-32C without final inversion and with a start value, CRC-16. Source: Linux kernel documentation,
 * filesystems/ext4, checksums; e2fsprogs 1.47.
 */
final class Crc {
    /** Start value of a chain. */
    static final int START = 0xFFFFFFFF;
    private static final int[] TABLE = new int[256];
    /** The table entry whose topmost byte is the index: undoes one step. */
    private static final int[] BACK = new int[256];
    private static final int[] TABLE16 = new int[256];

    static {
        for (int i = 0; i < 256; i++) {
            int crc = i;
            int short16 = i;
            for (int bit = 0; bit < 8; bit++) {
                crc = (crc & 1) != 0 ? crc >>> 1 ^ 0x82F63B78 : crc >>> 1;
                short16 = (short16 & 1) != 0 ? short16 >>> 1 ^ 0xA001 : short16 >>> 1;
            }
            TABLE[i] = crc;
            BACK[crc >>> 24] = i;
            TABLE16[i] = short16;
        }
    }

    private Crc() {
    }

    /** CRC-32C of the bytes, chained from a value. */
    static int raw(int start, byte[] bytes, int offset, int length) {
        if (length >= 48) {
            return fast(start, bytes, offset, length);
        }
        int crc = start;
        for (int i = offset; i < offset + length; i++) {
            crc = crc >>> 8 ^ TABLE[(crc ^ bytes[i]) & 0xFF];
        }
        return crc;
    }

    /** CRC-32C of all the bytes, chained from a value. */
    static int raw(int start, byte[] bytes) {
        return raw(start, bytes, 0, bytes.length);
    }

    /** The platform's routine cannot be given a start value: four bytes before the data bring it there. */
    private static int fast(int start, byte[] bytes, int offset, int length) {
        int state = start;
        int prefix = 0;
        for (int i = 0; i < 4; i++) {
            int index = BACK[state >>> 24];
            state = (state ^ TABLE[index]) << 8 | index;
        }
        prefix = state ^ START;
        CRC32C crc = new CRC32C();
        crc.update(le32(prefix), 0, 4);
        crc.update(bytes, offset, length);
        return ~(int) crc.getValue();
    }

    /** CRC-16 of the bytes, chained from a value. */
    static int crc16(int start, byte[] bytes, int offset, int length) {
        int crc = start;
        for (int i = offset; i < offset + length; i++) {
            crc = crc >>> 8 ^ TABLE16[(crc ^ bytes[i]) & 0xFF];
        }
        return crc;
    }

    /** Four bytes, least significant first. */
    static byte[] le32(int value) {
        return new byte[] {(byte) value, (byte) (value >>> 8), (byte) (value >>> 16), (byte) (value >>> 24)};
    }

    /** Eight bytes, least significant first. */
    static byte[] le64(long value) {
        byte[] bytes = new byte[8];
        for (int i = 0; i < 8; i++) {
            bytes[i] = (byte) (value >>> 8 * i);
        }
        return bytes;
    }
}
