package sectorglass.cli;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.Survey;
import sectorglass.image.ImagePart;
import sectorglass.image.OpenImage;
import sectorglass.recovery.FileHash;
import sectorglass.recovery.PlanOptions;
import sectorglass.recovery.ReadPlanner;
import sectorglass.recovery.opening.FileTests;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.outcome.Outcome;
import sectorglass.recovery.outcome.VolumeFiles;
import sectorglass.recovery.outcome.WantedList;
import sectorglass.recovery.outcome.WishAnswer;
import sectorglass.report.delivery.ReportInput;
import sectorglass.report.delivery.Reports;
import sectorglass.verify.Findings;

/** Writes the reports for customer and bench. */
@Command(description = {"Writes reports into a folder: customer.html and customer.pdf in plain words, files.csv and pages with all files,",
    "bench.html with findings, plan, passes and hashes. A file that exists is never written over."})
final class ReportCommand extends ImageCommand {

    @Option(names = "--to", required = true, paramLabel = "DIR", description = "The folder to write into; made where it is missing.")
    private Path to;

    @Option(names = "--wanted", paramLabel = "FILE", description = "The customer's wanted list (CSV: name,folder,kind,from,to,note); each line is answered.")
    private Path wanted;

    @Option(names = "--test", description = "Tests by content whether every file opens; takes as long as reading all of them.")
    private boolean test;

    @Option(names = "--thumbnails", description = {"Shows small views of at most 60 pictures that were read in full and open, with their names, in the customer's report.",
        "They are the customer's content: whoever sees the report sees them, so they are off unless asked for."})
    private boolean thumbnails;

    @Option(names = "--full", description = "Findings of every record and cluster map, as \"verify --full\" gives them.")
    private boolean full;

    @Option(names = "--hash", description = "Computes the SHA-256 of the image's files for the bench report.")
    private boolean hash;

    @Option(names = "--reference", paramLabel = "TEXT", description = "The customer's reference on the reports; otherwise the job's.")
    private String reference;

    ReportCommand(PrintStream out, PrintStream err) {
        super(out, err);
    }

    @Override
    int run(OpenImage opened) throws CommandException {
        WantedList list = WantedOption.load(wanted);
        Disk disk = survey(opened);
        List<Outcome> outcomes = new ArrayList<>();
        List<TestResult[]> tests = new ArrayList<>();
        for (VolumeFiles volume : VolumeFiles.of(disk)) {
            Outcome outcome = Outcome.of(volume, true, progress());
            outcomes.add(outcome);
            if (test) {
                tests.add(FileTests.ofProviders().testAll(outcome, outcome::counted, Runtime.getRuntime().availableProcessors(), progress()));
            }
        }
        try {
            Findings findings = Survey.ofProviders().verify(disk, full ? Level.FULL : Level.QUICK, book(), progress());
            ReportInput input = new ReportInput(disk, sources(opened), outcomes, tests, WishAnswer.of(list, outcomes, progress()), findings,
                    ReadPlanner.plan(disk, PlanOptions.DEFAULT, progress()), source.known(), reference != null ? reference : source.known().reference(), locale(),
                    Instant.now(), ZoneId.systemDefault(), thumbnails, source.history());
            Reports.write(input, to, progress());
        } catch (FileAlreadyExistsException e) {
            throw new CommandException(Status.OUTPUT, e.getMessage() + " exists already and is never written over. Give another folder.");
        } catch (IOException e) {
            throw new CommandException(Status.OUTPUT, "The reports could not be written into " + to + ": " + e.getMessage() + ".");
        }
        if (!quiet) {
            out.println("Reports written to " + to + ": customer.html, customer.pdf, files.csv, files/files-0001.html …, bench.html");
        }
        return Status.DONE;
    }

    private List<ReportInput.Source> sources(OpenImage opened) throws IOException {
        List<ReportInput.Source> sources = new ArrayList<>();
        for (ImagePart part : opened.parts()) {
            if (!part.missing()) {
                sources.add(new ReportInput.Source(part.file().getFileName().toString(), part.bytes(), hash ? FileHash.sha256(part.file(), progress()) : null));
            }
        }
        return sources;
    }
}
