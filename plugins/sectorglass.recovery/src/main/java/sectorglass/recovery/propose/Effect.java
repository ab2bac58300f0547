package sectorglass.recovery.propose;

import java.util.List;

import sectorglass.verify.Findings;

/**
 * What the checks say without and with a proposal.
 *
 * @param before counts without it
 * @param after counts with it
 * @param turned checks that turn from failed or not checked to passed, or no longer apply after failing
 * @param worse checks that held and do not hold any more, and failing ones about the new bytes themselves
 * @param seen failing checks of structures that can be seen only now; the proposal does not touch them
 * @param volumesBefore volumes recognised without it, as {@code kind at LBA}
 * @param volumesAfter volumes recognised with it
 */
public record Effect(Findings.Counts before, Findings.Counts after, List<Turn> turned, List<Turn> worse, List<Turn> seen,
        List<String> volumesBefore, List<String> volumesAfter) {
    private static final int VOLUME = 60;
    private static final int HARM = 10;

    /** Whether something got worse that is more than cosmetic. */
    public boolean harms() {
        return worse.stream().anyMatch(turn -> turn.weight() > 1) || !volumesAfter.containsAll(volumesBefore);
    }

    /** How much better things are: for ranking, larger is better. */
    public long gain() {
        long gain = (volumesAfter.size() - volumesBefore.size()) * (long) VOLUME;
        for (Turn turn : turned) {
            gain += turn.weight();
        }
        for (Turn turn : worse) {
            gain -= (long) HARM * turn.weight();
        }
        return gain;
    }
}
