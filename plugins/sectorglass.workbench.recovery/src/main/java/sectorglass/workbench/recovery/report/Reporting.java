package sectorglass.workbench.recovery.report;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;

import org.eclipse.jface.dialogs.MessageDialog;
import org.eclipse.swt.program.Program;
import org.eclipse.swt.widgets.Shell;

import sectorglass.disk.Level;
import sectorglass.disk.Survey;
import sectorglass.image.ImageException;
import sectorglass.image.ImagePart;
import sectorglass.image.OpenImage;
import sectorglass.image.Progress;
import sectorglass.recovery.FileHash;
import sectorglass.recovery.Job;
import sectorglass.recovery.JobFile;
import sectorglass.recovery.JobPasses;
import sectorglass.recovery.PassHistory;
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
import sectorglass.verify.RuleBook;
import sectorglass.workbench.model.OpenDisk;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.recovery.Words;
import sectorglass.workbench.recovery.Work;

/** Asks for a folder and writes the reports of the open disk. */
public final class Reporting {

    private Reporting() {
    }

    /** Asks, writes off the window's thread, and offers to look at what was written. */
    public static void ask(Shell shell, OpenDisk open) {
        if (Bench.desk().exam().runs()) {
            MessageDialog.openInformation(shell, Words.of("report.title"), Words.of("exam.closed"));
            return;
        }
        new ReportDialog(shell, wish -> new Work<>(Words.of("report.writing"), progress -> write(open, wish, progress), done -> {
            String[] answers = {Words.of("report.show"), Words.of("report.close")};
            if (new MessageDialog(shell, Words.of("report.title"), null, Words.of("report.done", done), MessageDialog.INFORMATION, 0, answers).open() == 0) {
                Program.launch(done.resolve("customer.html").toString());
            }
        }, why -> {
            if (why != null) {
                MessageDialog.openError(shell, Words.of("report.title"), why);
            }
        }).schedule()).open();
    }

    private static Path write(OpenDisk open, ReportWish wish, Progress progress) throws IOException {
        WantedList list = wish.wanted() == null ? new WantedList(List.of()) : WantedList.load(wish.wanted());
        List<Outcome> outcomes = new ArrayList<>();
        List<TestResult[]> tests = new ArrayList<>();
        for (VolumeFiles volume : VolumeFiles.of(open.disk())) {
            Outcome outcome = Outcome.of(volume, true, progress);
            outcomes.add(outcome);
            if (wish.test()) {
                tests.add(FileTests.ofProviders().testAll(outcome, outcome::counted, Runtime.getRuntime().availableProcessors(), progress));
            }
        }
        Findings findings = Survey.ofProviders().verify(open.disk(), wish.full() ? Level.FULL : Level.QUICK, RuleBook.ofProviders(wish.locale()), progress);
        List<ReportInput.Source> sources = new ArrayList<>();
        if (open.image() instanceof OpenImage image) {
            for (ImagePart part : image.parts()) {
                if (!part.missing()) {
                    sources.add(new ReportInput.Source(part.file().getFileName().toString(), part.bytes(),
                            wish.hash() ? FileHash.sha256(part.file(), progress) : null));
                }
            }
        }
        Job job = open.path() == null ? Job.empty() : JobFile.open(JobFile.beside(open.path())).job();
        try {
            Reports.write(new ReportInput(open.disk(), sources, outcomes, tests, WishAnswer.of(list, outcomes, progress), findings,
                    ReadPlanner.plan(open.disk(), PlanOptions.DEFAULT, progress), job, wish.reference() == null ? job.reference() : wish.reference(), wish.locale(),
                    Instant.now(), ZoneId.systemDefault(), wish.thumbnails(), passes(open, job)), wish.folder(), progress);
        } catch (FileAlreadyExistsException e) {
            throw new IOException(Words.of("exists", e.getMessage()), e);
        }
        return wish.folder();
    }

    /** What the passes of the job added. */
    private static PassHistory passes(OpenDisk open, Job job) throws IOException {
        if (open.path() == null) {
            return JobPasses.NONE;
        }
        try {
            return JobPasses.history(job, JobFile.beside(open.path()), open.image().sectors());
        } catch (ImageException e) {
            throw new IOException(e.getMessage(), e);
        }
    }
}
