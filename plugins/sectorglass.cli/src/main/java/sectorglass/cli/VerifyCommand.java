package sectorglass.cli;

import java.io.PrintStream;
import java.util.List;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.Survey;
import sectorglass.image.OpenImage;
import sectorglass.image.SafeText;
import sectorglass.recovery.AcceptedFindings;
import sectorglass.recovery.Job;
import sectorglass.report.FindingsJson;
import sectorglass.report.JsonOut;
import sectorglass.verify.Checks;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.Verdict;

/** Prints what holds and what does not. */
@Command(description = {"Prints findings: which structures hold, which bytes are wrong, what they should be and who says so.",
    "Exit status: 0 sound, 1 a finding at risk or unusable, 5 nothing worse than cosmetic but some checks could not run."})
final class VerifyCommand extends ImageCommand {

    @Option(names = "--full", description = "Reads every record and cluster map.")
    private boolean full;

    @Option(names = "--all", description = "Adds passed and folded findings.")
    private boolean all;

    private AcceptedFindings accepted = AcceptedFindings.NONE;

    @Mixin
    private DriveOptions drive = new DriveOptions();

    VerifyCommand(PrintStream out, PrintStream err) {
        super(out, err);
    }

    @Override
    int run(OpenImage opened) throws CommandException {
        Disk disk = survey(opened);
        Checks checks = Survey.ofProviders().checks(disk, full ? Level.FULL : Level.QUICK, progress());
        drive.check(opened, checks);
        Findings findings = Findings.of(checks, book(), opened.sectorSize());
        accepted = new AcceptedFindings(source.known().accepted());
        if (json) {
            try (JsonOut to = new JsonOut(out)) {
                FindingsJson.write(to, findings, opened.sectorSize(), all, accepted);
            }
        } else {
            print(findings, opened.sectorSize());
        }
        return status(findings);
    }

    /** The exit status that findings ask for. */
    static int status(Findings findings) {
        Findings.Counts counts = findings.counts();
        return counts.unusable() + counts.atRisk() > 0 ? Status.FINDINGS : counts.notChecked() > 0 ? Status.INCOMPLETE : Status.DONE;
    }

    private void print(Findings findings, int sectorSize) {
        List<Finding> shown = all ? findings.all() : findings.listed();
        for (Finding finding : shown) {
            if (finding.verdict() == Verdict.PASSED || finding.cause() != null) {
                out.println(sign(finding) + " " + finding.check() + "  LBA " + Numbers.grouped(finding.where().start() / sectorSize)
                        + (finding.cause() == null ? "" : "  follows from " + finding.cause()));
            } else {
                finding(finding, sectorSize);
            }
        }
        Findings.Counts c = findings.counts();
        out.println("unusable " + c.unusable() + " · at risk " + c.atRisk() + " · cosmetic " + c.cosmetic() + " · not checked "
                + c.notChecked() + " · passed " + c.passed() + (full ? "" : "   (--full reads every record and cluster map)"));
    }

    private void finding(Finding f, int sectorSize) {
        out.println(sign(f) + " " + SafeText.of(f.what()));
        Table table = new Table("ll");
        table.row("Check", f.id() + "  " + f.check() + "  " + (f.severity() == null ? f.verdict().word() : f.severity().word())
                + (f.volume() == null ? "" : ", volume " + f.volume()) + (f.count() > 1 ? ", with " + (f.count() - 1) + " that follow from it" : ""));
        long start = f.where().start();
        long first = start % sectorSize;
        table.row("Where", "LBA " + Numbers.grouped(start / sectorSize) + ", byte " + first
                + (f.where().length() > 1 ? " to " + Numbers.grouped(first + f.where().length() - 1) : "") + ", image byte " + Numbers.address(start));
        if (f.stored() != null) {
            table.row("Values", "stored " + SafeText.of(f.stored()) + (f.computed() == null ? "" : ", computed " + SafeText.of(f.computed())));
        }
        if (f.reason() != null) {
            table.row("Reason", SafeText.of(f.reason()) + (f.missing().isEmpty() ? "" : ": LBA " + missing(f)));
        }
        Job.Accepted one = accepted.of(f);
        if (one != null) {
            table.row("Accepted", "by " + SafeText.of(String.valueOf(one.who())) + ", " + one.at() + (one.note() == null ? "" : ": " + SafeText.of(one.note())));
        }
        table.row("Means", f.means()).row("Do", f.advice()).row("Source", f.source());
        table.print(out, "    ");
        out.println();
    }

    private static String missing(Finding f) {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < Math.min(4, f.missing().runs()); i++) {
            var run = f.missing().run(i);
            text.append(i == 0 ? "" : ", ").append(Numbers.grouped(run.first()));
            if (run.count() > 1) {
                text.append(" – ").append(Numbers.grouped(run.last()));
            }
        }
        return f.missing().runs() > 4 ? text + " and " + Numbers.grouped(f.missing().runs() - 4) + " more ranges" : text.toString();
    }

    /** The shape of a severity, as in the workbench. */
    private static String sign(Finding f) {
        if (f.verdict() == Verdict.PASSED) {
            return " ";
        }
        return f.severity() == null ? "N" : switch (f.severity()) {
            case UNUSABLE -> "■";
            case AT_RISK -> "◆";
            case COSMETIC -> "○";
        };
    }
}
