package sectorglass.cli;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Callable;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import sectorglass.image.SafeText;
import sectorglass.recovery.Job;
import sectorglass.recovery.JobFile;

/** Shows a job and records what happens to it. */
@Command(description = {"Shows a job file, or records in it what happened: reference, media, passes, choices, accepted findings, approval. Each record",
    "also adds a line to the log, which only grows. The file is made where it is missing."})
final class JobCommand implements Callable<Integer> {

    @Parameters(index = "0", paramLabel = "JOB", description = "The job file.")
    private Path file;

    @Option(names = "--reference", paramLabel = "TEXT", description = "The customer's reference; a number rather than a name.")
    private String reference;

    @Option(names = "--medium", paramLabel = "KIND=NAME", description = "A medium: source, copy or return, and what it is called; --note may say more.")
    private List<String> media = List.of();

    @Option(names = "--zones", paramLabel = "FILE", description = "The file of head zones, relative to the job file.")
    private String zones;

    @Option(names = "--pass", paramLabel = "NAME=FILE", description = "A pass over the disk and its read map, relative to the job file; --note may say more.")
    private List<String> passes = List.of();

    @Option(names = "--choose", paramLabel = "VOLUME=PATH", description = "A file or folder that the customer wants first.")
    private List<String> chosen = List.of();

    @Option(names = "--accept", paramLabel = "CHECK[=BYTE]", description = "A finding that is accepted as it is, by its check and, for one place, its first image byte.")
    private List<String> accepted = List.of();

    @Option(names = "--withdraw", paramLabel = "CHECK[=BYTE]", description = "The acceptance of a finding does not hold any more; --note may say why.")
    private List<String> withdrawn = List.of();

    @Option(names = "--approved-by", paramLabel = "TEXT", description = "The customer approved the list; --note may say what was approved.")
    private String approval;

    @Option(names = "--how", paramLabel = "TEXT", description = "How the approval was received: on paper, by telephone …")
    private String how;

    @Option(names = "--note", paramLabel = "TEXT", description = "A note; with another option, the remark of that record.")
    private String note;

    @Option(names = "--who", paramLabel = "NAME", description = "Who did it; otherwise the user of this machine.")
    private String who = System.getProperty("user.name");

    @Option(names = "--json", description = "The whole job as JSON.")
    private boolean json;

    @Option(names = "--quiet", description = "Nothing but the result.")
    private boolean quiet;

    @Option(names = {"-h", "--help"}, usageHelp = true, description = "Shows this help.")
    private boolean help;

    private final PrintStream out;
    private final Instant now = Instant.now().truncatedTo(ChronoUnit.SECONDS);
    private final List<String> done = new ArrayList<>();

    JobCommand(PrintStream out, PrintStream err) {
        this.out = out;
    }

    @Override
    public Integer call() throws CommandException {
        try {
            JobFile job = JobFile.open(file);
            Job changed = change(job.job());
            if (!done.isEmpty()) {
                for (String what : done) {
                    changed = changed.logged(now, who, what);
                }
                Job whole = changed;
                job.update(old -> whole);
            } else if (!Files.exists(file)) {
                throw new CommandException(Status.USE, "There is no job file " + file + ". An option that records something makes it.");
            }
            if (json) {
                out.print(Files.readString(file));
                out.println();
            } else if (!quiet) {
                print(job.job());
            }
            return Status.DONE;
        } catch (IOException e) {
            throw new CommandException(Status.OUTPUT, String.valueOf(e.getMessage()));
        }
    }

    private Job change(Job job) throws CommandException {
        Job changed = job;
        String remark = note;
        if (reference != null) {
            changed = changed.withReference(reference);
            done.add("reference " + reference);
        }
        for (String medium : media) {
            String[] parts = pair(medium, "--medium");
            if (!List.of("source", "copy", "return").contains(parts[0])) {
                throw new CommandException(Status.USE, "--medium " + medium + ": the kind is source, copy or return.");
            }
            changed = changed.withMedium(new Job.Medium(parts[1], parts[0], remark));
            done.add("medium " + parts[0] + ": " + parts[1]);
        }
        if (zones != null) {
            changed = changed.withZones(zones);
            done.add("head zones " + zones);
        }
        for (String pass : passes) {
            String[] parts = pair(pass, "--pass");
            changed = changed.withPass(new Job.Pass(parts[0], now, parts[1], remark));
            done.add("pass " + parts[0] + ", read map " + parts[1]);
        }
        for (String choice : chosen) {
            String[] parts = pair(choice, "--choose");
            List<Job.Chosen> more = new ArrayList<>(changed.chosen());
            more.add(new Job.Chosen((int) number(parts[0], "--choose"), parts[1]));
            changed = changed.withChosen(more);
            done.add("chosen: volume " + parts[0] + ", " + parts[1]);
        }
        for (String finding : accepted) {
            int at = finding.indexOf('=');
            Long firstByte = at < 0 ? null : number(finding.substring(at + 1), "--accept");
            changed = changed.withAccepted(new Job.Accepted(now, who, at < 0 ? finding : finding.substring(0, at), firstByte, remark));
            done.add("accepted finding " + finding + (remark == null ? "" : ": " + remark));
        }
        for (String finding : withdrawn) {
            changed = withdraw(changed, finding);
            done.add("acceptance withdrawn: " + finding + (remark == null ? "" : ": " + remark));
        }
        if (approval != null) {
            changed = changed.withApproval(new Job.Approval(now, who, approval, how, remark));
            done.add("approval by " + approval + (how == null ? "" : ", " + how) + (remark == null ? "" : ": " + remark));
        } else if (how != null) {
            throw new CommandException(Status.USE, "--how tells how an approval was received; --approved-by is missing.");
        }
        if (note != null && done.isEmpty()) {
            changed = changed.withNote(new Job.Note(now, note));
            done.add("note: " + note);
        }
        return changed;
    }

    private static Job withdraw(Job job, String finding) throws CommandException {
        int at = finding.indexOf('=');
        String check = at < 0 ? finding : finding.substring(0, at);
        Long firstByte = at < 0 ? null : number(finding.substring(at + 1), "--withdraw");
        List<Job.Accepted> found = job.accepted().stream().filter(one -> check.equals(one.check()) && Objects.equals(firstByte, one.firstByte())).toList();
        if (found.isEmpty()) {
            throw new CommandException(Status.USE, "--withdraw " + finding + ": the job has no such accepted finding.");
        }
        return job.withoutAccepted(found);
    }

    private static String[] pair(String text, String option) throws CommandException {
        int at = text.indexOf('=');
        if (at < 1 || at == text.length() - 1) {
            throw new CommandException(Status.USE, option + " " + text + ": a name, =, and a value are expected.");
        }
        return new String[] {text.substring(0, at), text.substring(at + 1)};
    }

    private static long number(String text, String option) throws CommandException {
        try {
            return Long.decode(text);
        } catch (NumberFormatException e) {
            throw new CommandException(Status.USE, option + ": " + text + " is no number.");
        }
    }

    private void print(Job job) {
        Table table = new Table("ll").row("Reference", safe(job.reference()));
        job.media().forEach(medium -> table.row("Medium", medium.kind() + ": " + safe(medium.name()) + remark(medium.note())));
        job.passes().forEach(pass -> table.row("Pass", safe(pass.name()) + ", " + pass.at() + ", " + safe(pass.readMap()) + remark(pass.remark())));
        if (job.zones() != null) {
            table.row("Head zones", safe(job.zones()));
        }
        job.chosen().forEach(chosenOne -> table.row("Chosen", chosenOne.volume() + ": " + safe(chosenOne.path())));
        job.accepted().forEach(one -> table.row("Accepted", one.check() + (one.firstByte() == null ? "" : " at byte " + one.firstByte()) + ", " + safe(one.who()) + ", " + one.at()
                + remark(one.note())));
        job.approvals().forEach(one -> table.row("Approval", safe(one.by()) + (one.how() == null ? "" : ", " + safe(one.how())) + ", recorded by " + safe(one.who()) + ", " + one.at() + remark(one.note())));
        job.notes().forEach(one -> table.row("Note", one.at() + "  " + safe(one.text())));
        job.log().forEach(line -> table.row("Log", line.at() + "  " + safe(line.who()) + "  " + safe(line.what())));
        table.print(out, "");
    }

    private static String safe(String text) {
        return text == null ? "" : SafeText.of(text);
    }

    private static String remark(String text) {
        return text == null ? "" : " (" + SafeText.of(text) + ")";
    }
}
