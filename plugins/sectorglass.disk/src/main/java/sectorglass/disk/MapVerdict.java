package sectorglass.disk;

import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.Severity;
import sectorglass.verify.Verdict;

/**
 * The two answers about a map; without both a map is never called intact.
 *
 * @param consistent whether its own checks hold; null where unread bytes leave it open
 * @param fitsContent whether volumes were found where it points and their sizes agree; null where that cannot be said
 */
public record MapVerdict(Boolean consistent, Boolean fitsContent) {

    static Boolean consistent(Findings own) {
        boolean open = false;
        for (Finding finding : own.all()) {
            if (finding.verdict() == Verdict.FAILED && finding.severity() != Severity.COSMETIC) {
                return Boolean.FALSE;
            }
            open |= finding.verdict() == Verdict.NOT_CHECKED;
        }
        return open ? null : Boolean.TRUE;
    }

    /** Whether both answers are yes. */
    public boolean intact() {
        return Boolean.TRUE.equals(consistent) && Boolean.TRUE.equals(fitsContent);
    }
}
