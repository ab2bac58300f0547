package sectorglass.workbench.recovery.approval;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;

import sectorglass.image.SafeText;
import sectorglass.recovery.Job;
import sectorglass.workbench.recovery.Words;

/** Approvals in words. */
final class ApprovalWords {

    private ApprovalWords() {
    }

    /** The day on which it was received; empty where the job does not say. */
    static String day(Job.Approval one) {
        return one.at() == null ? "" : LocalDate.ofInstant(one.at(), ZoneId.systemDefault()).toString();
    }

    /** One sentence about the latest one; how many there are where there are several. */
    static String latest(List<Job.Approval> all) {
        if (all.isEmpty()) {
            return Words.of("approval.none");
        }
        Job.Approval last = all.get(all.size() - 1);
        String how = last.how() == null ? "" : ", " + SafeText.of(last.how());
        return Words.of(all.size() == 1 ? "approval.one" : "approval.several", SafeText.of(String.valueOf(last.by())), day(last), how, all.size());
    }
}
