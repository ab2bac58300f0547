package sectorglass.cli;

import java.io.PrintStream;
import java.util.Arrays;
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
                        + (finding.cause() == null ? "" : "  " + say("verify.follows-from", finding.cause())));
            } else {
                finding(finding, sectorSize);
            }
        }
        Findings.Counts c = findings.counts();
        out.println(say("verify.counts", c.unusable(), c.atRisk(), c.cosmetic(), c.notChecked(), c.passed()) + (full ? "" : "   " + say("verify.full")));
    }

    private void finding(Finding f, int sectorSize) {
        out.println(sign(f) + " " + SafeText.of(f.what()));
        Table table = new Table("ll");
        table.row(say("verify.check"), f.id() + "  " + f.check() + "  " + word(f) + (f.volume() == null ? "" : say("verify.volume", f.volume()))
                + (f.count() > 1 ? say("verify.with", f.count() - 1) : ""));
        long start = f.where().start();
        long first = start % sectorSize;
        table.row(say("verify.where"), say(f.where().length() > 1 ? "verify.bytes" : "verify.byte", Numbers.grouped(start / sectorSize), first,
                Numbers.address(start), Numbers.grouped(first + f.where().length() - 1)));
        if (f.stored() != null) {
            table.row(say("verify.values"), say("verify.stored", f.stored())
                    + (f.computed() == null ? "" : say("verify.computed", f.computed())));
        }
        if (f.reason() != null) {
            table.row(say("verify.reason"), SafeText.of(f.reason()) + (f.missing().isEmpty() ? "" : ": LBA " + missing(f)));
        }
        Job.Accepted one = accepted.of(f);
        if (one != null) {
            table.row(say("verify.accepted"), say("verify.accepted.by", one.who(), one.at())
                    + (one.note() == null ? "" : ": " + SafeText.of(one.note())));
        }
        table.row(say("verify.means"), f.means()).row(say("verify.do"), f.advice()).row(say("verify.source"), f.source());
        table.print(out, "    ");
        out.println();
    }

    private String say(String key, Object... values) {
        return texts().of(key, Arrays.stream(values).map(String::valueOf).toArray());
    }

    private String word(Finding f) {
        return say(f.severity() == null ? "verify.not-checked" : switch (f.severity()) {
            case UNUSABLE -> "verify.unusable";
            case AT_RISK -> "verify.at-risk";
            case COSMETIC -> "verify.cosmetic";
        });
    }

    private String missing(Finding f) {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < Math.min(4, f.missing().runs()); i++) {
            var run = f.missing().run(i);
            text.append(i == 0 ? "" : ", ").append(Numbers.grouped(run.first()));
            if (run.count() > 1) {
                text.append(" – ").append(Numbers.grouped(run.last()));
            }
        }
        return f.missing().runs() > 4 ? text + " " + say("verify.more-ranges", Numbers.grouped(f.missing().runs() - 4)) : text.toString();
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
