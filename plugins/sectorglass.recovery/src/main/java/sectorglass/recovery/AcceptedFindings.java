package sectorglass.recovery;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

import sectorglass.verify.Finding;

/** Which findings somebody looked at and accepted as they are. Immutable. */
public final class AcceptedFindings {
    /** None. */
    public static final AcceptedFindings NONE = new AcceptedFindings(List.of());

    private final Map<String, List<Job.Accepted>> byCheck = new HashMap<>();

    /** Those that a job names; entries without a check are left out. */
    public AcceptedFindings(List<Job.Accepted> all) {
        for (Job.Accepted one : all) {
            if (one.check() != null) {
                byCheck.computeIfAbsent(one.check(), any -> new ArrayList<>()).add(one);
            }
        }
    }

    /** Those that hold for a finding: of its place, or of its check at every place. */
    public List<Job.Accepted> all(Finding finding) {
        return byCheck.getOrDefault(finding.check(), List.of()).stream()
                .filter(one -> one.firstByte() == null || one.firstByte() == finding.where().start()).toList();
    }

    /** The latest one that holds for a finding, or null. */
    public Job.Accepted of(Finding finding) {
        List<Job.Accepted> found = byCheck.isEmpty() ? List.of() : all(finding);
        return found.isEmpty() ? null : found.get(found.size() - 1);
    }

    /** Whether somebody accepted a finding. */
    public boolean has(Finding finding) {
        return of(finding) != null;
    }
}
