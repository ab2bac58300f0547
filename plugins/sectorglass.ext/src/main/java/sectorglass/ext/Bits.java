package sectorglass.ext;

/** A set of block or cluster numbers, kept group by group so that empty stretches cost nothing. */
final class Bits {
    private static final int PART = 1 << 15;

    private final long[][] parts;

    /** @param size numbers are 0 to size - 1 */
    Bits(long size) {
        parts = new long[(int) Math.min(Integer.MAX_VALUE - 16, (size + PART - 1) / PART)][];
    }

    /** Adds a number; gives whether it was new. */
    boolean add(long number) {
        int part = (int) (number / PART);
        if (part >= parts.length) {
            return true;
        }
        if (parts[part] == null) {
            parts[part] = new long[PART / 64];
        }
        int bit = (int) (number % PART);
        long mask = 1L << bit;
        boolean added = (parts[part][bit >> 6] & mask) == 0;
        parts[part][bit >> 6] |= mask;
        return added;
    }

    /** Whether the number is in the set. */
    boolean contains(long number) {
        int part = (int) (number / PART);
        int bit = (int) (number % PART);
        return part < parts.length && parts[part] != null && (parts[part][bit >> 6] & 1L << bit) != 0;
    }
}
