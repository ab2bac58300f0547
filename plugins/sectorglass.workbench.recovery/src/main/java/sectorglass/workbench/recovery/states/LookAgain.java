package sectorglass.workbench.recovery.states;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;

import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.Survey;
import sectorglass.image.Changes;
import sectorglass.image.ImageException;
import sectorglass.image.OpenImage;
import sectorglass.image.Progress;
import sectorglass.recovery.JobFile;
import sectorglass.recovery.JobPasses;
import sectorglass.recovery.growth.Since;
import sectorglass.recovery.growth.Standing;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.workbench.model.OpenDisk;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.recovery.Words;
import sectorglass.workbench.recovery.Work;

/** Takes in what another process has written to the open image since, judges it anew, and tells what is known more. */
public final class LookAgain {

    /** What came out. */
    private record Look(OpenDisk disk, Findings findings, Since since) { }

    private LookAgain() {
    }

    /**
     * Begins. For the thread of the window.
     *
     * @param open an open disk whose image is an {@link OpenImage}
     * @param then hears what changed, once the desk shows it
     * @param failed hears what went wrong, or null where the person stopped it
     */
    public static void start(OpenDisk open, Consumer<Since> then, Consumer<String> failed) {
        new Work<>(Words.of("again.working"), progress -> look(open, progress), look -> {
            if (Bench.desk().open() == null || Bench.desk().open().image() != open.image()) {
                return; // another disk lies on the desk by now
            }
            Bench.desk().reread(look.disk(), Bench.catalogue());
            Bench.desk().judged(look.disk(), look.findings());
            then.accept(look.since());
        }, failed).schedule();
    }

    private static sectorglass.recovery.Job job(OpenDisk open) {
        try {
            return JobFile.open(JobFile.beside(open.path())).job();
        } catch (IOException e) {
            return sectorglass.recovery.Job.empty(); // the marks tell what is wrong with the job file
        }
    }

    private static Look look(OpenDisk open, Progress progress) throws ImageException {
        OpenImage image = (OpenImage) open.image();
        Findings known = open.findings() != null ? open.findings() : judge(open.disk(), progress);
        Standing before = Standing.of(open.disk(), known, progress);
        sectorglass.recovery.Job job = job(open);
        Path file = JobFile.beside(open.path());
        boolean passes = JobPasses.shown(image.states(), job);
        Changes changes = image.refresh();
        // an image of its own: what was decoded from the former one is left behind
        OpenImage fresh = image.withStates(passes ? JobPasses.applied(image.states(), JobPasses.history(job, file, image.sectors())) : image.states());
        Disk disk = Survey.ofProviders().disk(fresh, open.disk().others(), progress);
        Findings findings = judge(disk, progress);
        List<String> remarks = new ArrayList<>(open.remarks());
        image.troubles().stream().filter(t -> !remarks.contains(t)).forEach(remarks::add);
        return new Look(OpenDisk.surveyed(open.path(), disk, remarks), findings, Since.of(before, changes, disk, findings, progress));
    }

    private static Findings judge(Disk disk, Progress progress) {
        return Survey.ofProviders().verify(disk, Level.QUICK, RuleBook.ofProviders(Locale.getDefault()), progress);
    }
}
