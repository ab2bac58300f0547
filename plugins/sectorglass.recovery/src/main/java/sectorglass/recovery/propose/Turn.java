package sectorglass.recovery.propose;

import sectorglass.image.ByteRange;
import sectorglass.verify.Severity;
import sectorglass.verify.Verdict;

/**
 * A check whose verdict is another one with the proposal than without.
 *
 * @param check id of the rule
 * @param where image bytes the verdict is about, with the proposal where it gives one, else without
 * @param from verdict without the proposal, or null where there was none
 * @param to verdict with the proposal, or null where there is none any more
 * @param severity of the failed one, or null
 * @param what what is or was wrong, in words
 */
public record Turn(String check, ByteRange where, Verdict from, Verdict to, Severity severity, String what) {

    /** How much it weighs: a structure that can serve again most, a cosmetic matter least. */
    int weight() {
        return severity == null ? 2 : switch (severity) {
            case UNUSABLE -> 100;
            case AT_RISK -> 10;
            case COSMETIC -> 1;
        };
    }
}
