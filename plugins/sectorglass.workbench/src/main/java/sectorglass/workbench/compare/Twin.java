package sectorglass.workbench.compare;

import sectorglass.recovery.Differences;
import sectorglass.recovery.Differences.Sameness;
import sectorglass.workbench.pages.Known;

/**
 * The bytes of both sides that are in view.
 *
 * @param left one side
 * @param right the other, of the same length
 */
record Twin(Known left, Known right) {

    /** What is known of the byte at an index: still coming, or not read on a side, is unknown. */
    Sameness at(int index) {
        return Differences.of(left.bytes()[index], left.read(index), right.bytes()[index], right.read(index));
    }

    /** Whether a byte of the stretch has this sameness. */
    boolean any(int from, int to, Sameness wanted) {
        for (int i = from; i < to; i++) {
            if (at(i) == wanted) {
                return true;
            }
        }
        return false;
    }
}
