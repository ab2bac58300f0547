package sectorglass.apple;

import sectorglass.image.Window;

/** The checksum of APFS objects. Source: Apple File System Reference by way of apfsprogs (linux-apfs). */
final class ApfsObject {
    private static final long MODULUS = 0xFFFFFFFFL;

    private ApfsObject() {
    }

    /** Fletcher-64 over the bytes after the checksum field, as little-endian words. */
    static long sum(Window object) {
        return sum(object.bytes(8, object.length() - 8));
    }

    /** Fletcher-64 of whole words. */
    static long sum(byte[] bytes) {
        long a = 0;
        long b = 0;
        for (int i = 0; i + 4 <= bytes.length; i += 4) {
            long word = (bytes[i] & 0xFF | (bytes[i + 1] & 0xFF) << 8 | (bytes[i + 2] & 0xFF) << 16 | (long) bytes[i + 3] << 24) & MODULUS;
            a = (a + word) % MODULUS;
            b = (b + a) % MODULUS;
        }
        long low = MODULUS - (a + b) % MODULUS;
        long high = MODULUS - (a + low) % MODULUS;
        return high << 32 | low;
    }

    /** Whether the object stores the checksum that its bytes have. */
    static boolean sumHolds(Window object) {
        return sum(object) == object.u64le(0);
    }
}
