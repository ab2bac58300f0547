package sectorglass.workbench.findings;

import java.util.Locale;
import java.util.Set;

import sectorglass.verify.Finding;
import sectorglass.verify.Verdict;
import sectorglass.workbench.look.Sign;

/**
 * Which findings are wanted, and in which order.
 *
 * @param signs wanted severities
 * @param volume number of the wanted volume, {@link #ALL} or {@link #OUTSIDE}
 * @param words words that the finding has to hold; empty: any
 * @param grouping what they are put together by
 * @param order the column they are sorted by
 * @param backwards whether the greatest comes first
 * @param closed keys of groups whose rows are not shown
 */
record Question(Set<Sign> signs, int volume, String words, Grouping grouping, FindingColumn order, boolean backwards, Set<String> closed) {
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
        return words.isEmpty() || holds(finding.what()) || holds(finding.check()) || holds(finding.means()) || holds(finding.stored())
                || holds(finding.computed());
    }

    private boolean holds(String text) {
        return text != null && text.toLowerCase(Locale.ROOT).contains(words);
    }
}
