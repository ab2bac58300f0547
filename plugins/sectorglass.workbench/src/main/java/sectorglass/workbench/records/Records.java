package sectorglass.workbench.records;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Executor;
import java.util.function.UnaryOperator;

import sectorglass.recovery.AcceptedFindings;
import sectorglass.recovery.Job;
import sectorglass.recovery.JobFile;
import sectorglass.verify.Finding;
import sectorglass.workbench.look.Texts;

/**
 * Accepted findings and approvals of the open image. For the window's thread; the job file is read and written on the worker. Each change
 * is a line of the job's log, which only grows; what could not be written is not shown as recorded.
 */
public final class Records {
    private final Executor worker;
    private final Executor window;
    private final Runnable changed;
    private AcceptedFindings accepted = AcceptedFindings.NONE;
    private List<Job.Approval> approvals = List.of();
    private String reference;
    private Path image;
    /** Number of the open image; answers for a former one are dropped. */
    private int opened;
    private String trouble;

    /**
     * No records yet.
     *
     * @param changed called on the window's thread after each change
     */
    public Records(Executor worker, Executor window, Runnable changed) {
        this.worker = worker;
        this.window = window;
        this.changed = changed;
    }

    /** Shows the records of another image; null for one that has no file. */
    public void open(Path another) {
        image = another;
        opened++;
        accepted = AcceptedFindings.NONE;
        approvals = List.of();
        reference = null;
        trouble = null;
        changed.run();
        if (another != null) {
            work(() -> JobFile.open(JobFile.beside(another)).job());
        }
    }

    /** The findings that somebody accepted. */
    public AcceptedFindings accepted() {
        return accepted;
    }

    /** The customer's approvals, as they were recorded. */
    public List<Job.Approval> approvals() {
        return approvals;
    }

    /** The customer's reference, or null. */
    public String reference() {
        return reference;
    }

    /** Why the last change was not recorded, a sentence, or null where it was. */
    public String trouble() {
        return trouble;
    }

    /** Accepts findings as they are, each for its place. */
    public void accept(List<Finding> findings, String who, String why) {
        Instant now = now();
        change(job -> {
            AcceptedFindings before = new AcceptedFindings(job.accepted());
            Job more = job;
            for (Finding finding : findings) {
                if (!before.has(finding)) {
                    long at = finding.where().start();
                    more = more.withAccepted(new Job.Accepted(now, who, finding.check(), at, why)).logged(now, who, "accepted finding " + finding.check() + "=" + at + ": " + why);
                }
            }
            return more;
        });
    }

    /** Withdraws whatever acceptance holds for findings; one of a check as a whole is withdrawn as a whole. */
    public void withdraw(List<Finding> findings, String who, String why) {
        Instant now = now();
        change(job -> {
            AcceptedFindings before = new AcceptedFindings(job.accepted());
            List<Job.Accepted> gone = new ArrayList<>();
            for (Finding finding : findings) {
                before.all(finding).stream().filter(one -> !gone.contains(one)).forEach(gone::add);
            }
            Job fewer = job.withoutAccepted(gone);
            for (Job.Accepted one : gone) {
                fewer = fewer.logged(now, who, "acceptance withdrawn: " + one.check() + (one.firstByte() == null ? "" : "=" + one.firstByte()) + ": " + why);
            }
            return fewer;
        });
    }

    /** Records an approval of the customer's. */
    public void approve(Job.Approval approval) {
        String how = approval.how() == null ? "" : ", " + approval.how();
        String what = approval.note() == null ? "" : ": " + approval.note();
        change(job -> job.withApproval(approval).logged(now(), approval.who(), "approval by " + approval.by() + how + ", received " + approval.at() + what));
    }

    private static Instant now() {
        return Instant.now().truncatedTo(ChronoUnit.SECONDS);
    }

    private void change(UnaryOperator<Job> how) {
        Path of = image;
        if (of == null) {
            trouble = Texts.of("records.nofile");
            changed.run();
        } else {
            work(() -> JobFile.change(JobFile.beside(of), how));
        }
    }

    /** Something that gives the job as it is now. */
    private interface Reading {
        Job job() throws IOException;
    }

    private void work(Reading reading) {
        int number = opened;
        worker.execute(() -> {
            Job read = null;
            String sentence = null;
            try {
                read = reading.job();
            } catch (IOException e) {
                sentence = Texts.of("records.trouble", String.valueOf(e.getMessage()));
            }
            Job now = read;
            String said = sentence;
            window.execute(() -> {
                if (number == opened) {
                    show(now, said);
                }
            });
        });
    }

    private void show(Job now, String said) {
        if (now != null) {
            accepted = new AcceptedFindings(now.accepted());
            approvals = now.approvals();
            reference = now.reference();
        }
        trouble = said;
        changed.run();
    }
}
