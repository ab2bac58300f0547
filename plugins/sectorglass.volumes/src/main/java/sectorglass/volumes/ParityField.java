package sectorglass.volumes;

/**
 * Arithmetic with bytes as the second parity of a level 6 set needs it: the field of 256 elements with the polynomial
 * x^8 + x^4 + x^3 + x^2 + 1 and the generator 2. Source: H. P. Anvin, "The mathematics of RAID-6", sections 2 and 3; Linux kernel lib/raid6.
 */
final class ParityField {
    private static final int POLYNOMIAL = 0x11D;
    private static final int[] POWERS = new int[510];
    private static final int[] LOGARITHMS = new int[256];
    private static final byte[][] PRODUCTS = new byte[256][256];

    static {
        int value = 1;
        for (int i = 0; i < 255; i++) {
            POWERS[i] = value;
            POWERS[i + 255] = value;
            LOGARITHMS[value] = i;
            value = (value & 0x80) != 0 ? value << 1 ^ POLYNOMIAL : value << 1;
        }
        for (int a = 0; a < 256; a++) {
            for (int b = 0; b < 256; b++) {
                PRODUCTS[a][b] = (byte) multiply(a, b);
            }
        }
    }

    private ParityField() {
    }

    /** The generator to a power. @param exponent 0 to 509 */
    static int power(int exponent) {
        return POWERS[exponent];
    }

    static int multiply(int a, int b) {
        return a == 0 || b == 0 ? 0 : POWERS[LOGARITHMS[a] + LOGARITHMS[b]];
    }

    /** @param b not 0 */
    static int divide(int a, int b) {
        return a == 0 ? 0 : POWERS[LOGARITHMS[a] + 255 - LOGARITHMS[b]];
    }

    /** The power of the generator that gives a byte. @param a not 0 */
    static int logarithm(int a) {
        return LOGARITHMS[a];
    }

    /** The products of all bytes with a factor, or null for the factor 1; not to be changed. */
    static byte[] products(int factor) {
        return factor == 1 ? null : PRODUCTS[factor];
    }
}
