package sectorglass.volumes;

/** CRC-32 of polynomial 0xEDB88320 with a start value of its own and no final inversion, as LVM2 and F2FS use it. */
final class SeededCrc32 {
    /** Start value of LVM2. Source: LVM2 text format layout header. */
    static final int LVM = 0xF597A6CF;
    /** Start value of F2FS: its magic. Source: libblkid superblock prober for F2FS (util-linux). */
    static final int F2FS = 0xF2F52010;
    private static final int[] TABLE = new int[256];

    static {
        for (int i = 0; i < 256; i++) {
            int crc = i;
            for (int bit = 0; bit < 8; bit++) {
                crc = (crc & 1) != 0 ? crc >>> 1 ^ 0xEDB88320 : crc >>> 1;
            }
            TABLE[i] = crc;
        }
    }

    private SeededCrc32() {
    }

    /** The checksum as an unsigned value. */
    static long of(int start, byte[] bytes) {
        int crc = start;
        for (byte b : bytes) {
            crc = crc >>> 8 ^ TABLE[(crc ^ b) & 0xFF];
        }
        return crc & 0xFFFFFFFFL;
    }
}
