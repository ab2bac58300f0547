package sectorglass.make;

/**
 * The pseudo-random numbers behind everything that is made here: SplitMix64, so that the same seed gives the same bytes on every
 * machine. Source: G. Steele, D. Lea, C. Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014, figure 14, with
 * the mixing constants of its variant 13.
 */
public final class SplitMix64 {
    private static final long GOLDEN_GAMMA = 0x9E3779B97F4A7C15L;

    private long state;

    /** Starts at a seed; any value is good. */
    public SplitMix64(long seed) {
        state = seed;
    }

    /** The generator of a named part: its numbers do not change when another part takes more or fewer of its own. */
    public static SplitMix64 of(long seed, String part) {
        return new SplitMix64(derive(seed, part));
    }

    /** A seed for a named part: the 64-bit FNV-1a hash of its UTF-16 units, mixed with the seed. */
    public static long derive(long seed, String part) {
        long hash = 0xCBF29CE484222325L;
        for (int i = 0; i < part.length(); i++) {
            char unit = part.charAt(i);
            hash = (hash ^ unit & 0xFF) * 0x100000001B3L;
            hash = (hash ^ unit >> 8) * 0x100000001B3L;
        }
        return mix(seed + GOLDEN_GAMMA ^ hash);
    }

    /** The next 64 bits. */
    public long next() {
        state += GOLDEN_GAMMA;
        return mix(state);
    }

    /**
     * The next number from 0 to {@code bound - 1}; its tiny bias towards small numbers does not matter here.
     *
     * @throws IllegalArgumentException if the bound is not positive
     */
    public int below(int bound) {
        if (bound <= 0) {
            throw new IllegalArgumentException("bound=" + bound);
        }
        return (int) ((next() >>> 32) * bound >>> 32);
    }

    /** Fills a part of an array, eight bytes per number, lowest byte first. */
    public void fill(byte[] into, int offset, int length) {
        int end = offset + length;
        for (int at = offset; at < end;) {
            long bits = next();
            for (int k = 0; k < 8 && at < end; k++, bits >>>= 8) {
                into[at++] = (byte) bits;
            }
        }
    }

    private static long mix(long bits) {
        long z = (bits ^ bits >>> 30) * 0xBF58476D1CE4E5B9L;
        z = (z ^ z >>> 27) * 0x94D049BB133111EBL;
        return z ^ z >>> 31;
    }
}
