package sectorglass.workbench.compare;

import sectorglass.recovery.Differences;

/**
 * What is compared.
 *
 * @param left one side
 * @param right the other side
 * @param length bytes of both
 */
record Pair(Side left, Side right, long length) {

    /** As many bytes as both sides have, at most so many. */
    static Pair of(Side left, Side right, long most) {
        return new Pair(left, right, Math.max(0, Math.min(most, Math.min(left.room(), right.room()))));
    }

    /** The engine that finds what differs. */
    Differences differences() {
        return new Differences(left.image(), left.start(), right.image(), right.start(), length);
    }

    /** Whether one side is longer than what is compared. */
    boolean cut() {
        return left.room() != right.room() && length == Math.min(left.room(), right.room());
    }
}
