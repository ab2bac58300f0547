package sectorglass.workbench.findings;

import java.util.Locale;
import java.util.Set;

import sectorglass.recovery.AcceptedFindings;
import sectorglass.recovery.Job;
import sectorglass.verify.Finding;
import sectorglass.verify.Verdict;
import sectorglass.workbench.look.Sign;

/**
 * Which findings are wanted, and in which order.
 *
 * @param signs wanted severities
 * @param volume number of the wanted volume, {@link #ALL} or {@link #OUTSIDE}
 * @param acceptance whether accepted ones are wanted
 * @param accepted those that somebody accepted
 * @param words words that the finding has to hold; empty: any
 * @param grouping what they are put together by
 * @param order the column they are sorted by
 * @param backwards whether the greatest comes first
 * @param closed keys of groups whose rows are not shown
 */
record Question(Set<Sign> signs, int volume, Acceptance acceptance, AcceptedFindings accepted, String words, Grouping grouping, FindingColumn order,
        boolean backwards, Set<String> closed) {
    /** Findings of every volume and those of none. */
    static final int ALL = -1;
    /** Findings that belong to no volume: maps, the disk as a whole. */
    static final int OUTSIDE = -2;

    boolean wants(Finding finding) {
        if (finding.verdict() == Verdict.PASSED || !signs.contains(Sign.of(finding))) {
            return false;
        }
        if (volume == OUTSIDE ? finding.volume() != null : volume != ALL && (finding.volume() == null || finding.volume() != volume)) {
            return false;
        }
        Job.Accepted by = accepted.of(finding);
        if (acceptance != Acceptance.ANY && (by != null) != (acceptance == Acceptance.ACCEPTED)) {
            return false;
        }
        return words.isEmpty() || by != null && holds(by.note()) || holds(finding.what()) || holds(finding.check()) || holds(finding.means()) || holds(finding.stored())
                || holds(finding.computed());
    }

    private boolean holds(String text) {
        return text != null && text.toLowerCase(Locale.ROOT).contains(words);
    }
}
