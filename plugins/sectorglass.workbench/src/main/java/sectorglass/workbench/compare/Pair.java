package sectorglass.workbench.compare;

import sectorglass.recovery.Differences;

/**
 * What is compared.
 *
 * @param left one side
 * @param right the other side
 * @param length bytes of both
 * @param cut whether one side goes on where the other one ends
 */
record Pair(Side left, Side right, long length, boolean cut) {

    /** As many bytes as both sides have, at most so many. */
    static Pair of(Side left, Side right, long most) {
        long least = Math.min(left.room(), right.room());
        return new Pair(left, right, Math.max(0, Math.min(most, least)), least < most && left.room() != right.room());
    }

    /** The engine that finds what differs. */
    Differences differences() {
        return new Differences(left.image(), left.start(), right.image(), right.start(), length);
    }
}
