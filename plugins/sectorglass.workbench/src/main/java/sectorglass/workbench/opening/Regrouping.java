package sectorglass.workbench.opening;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;

import org.eclipse.core.runtime.IProgressMonitor;
import org.eclipse.core.runtime.IStatus;
import org.eclipse.core.runtime.Status;
import org.eclipse.core.runtime.jobs.Job;
import org.eclipse.swt.widgets.Display;

import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.Survey;
import sectorglass.image.OpenImage;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.recovery.FurtherDisks;
import sectorglass.recovery.Job.FurtherDisk;
import sectorglass.recovery.JobFile;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.OpenDisk;

/** Surveys the disk on the desk once more, together with other further disks of its set, and keeps their names in the job file. */
public final class Regrouping extends Job {
    private final OpenDisk open;
    private final List<FurtherDisk> wanted;
    private final Consumer<String> refused;
    private final Desk desk;
    private final Display display;

    /**
     * Prepares it; {@link #schedule} begins. For the thread of the window.
     *
     * @param refused hears on the window's thread what could not be kept or opened
     */
    public Regrouping(OpenDisk open, List<FurtherDisk> wanted, Consumer<String> refused) {
        super(Texts.of("job.disks"));
        this.open = open;
        this.wanted = List.copyOf(wanted);
        this.refused = refused;
        this.desk = Bench.desk();
        this.display = Display.getCurrent();
        setUser(false);
    }

    /** The further disks that the job file beside an image names; none where it cannot be read. */
    public static List<FurtherDisk> named(Path image) {
        try {
            return JobFile.open(JobFile.beside(image)).job().furtherDisks();
        } catch (IOException e) {
            return List.of(); // the part Marks says so
        }
    }

    /** They, opened. */
    static FurtherDisks kept(Path image) {
        return FurtherDisks.open(named(image), image.toAbsolutePath().getParent(), Locale.getDefault());
    }

    static List<String> remarks(OpenImage image, FurtherDisks further) {
        List<String> all = new ArrayList<>(image.remarks());
        all.addAll(further.refused());
        return all;
    }

    @Override
    protected IStatus run(IProgressMonitor monitor) {
        monitor.beginTask(getName(), IProgressMonitor.UNKNOWN);
        Progress progress = new JobProgress(monitor);
        FurtherDisks further = FurtherDisks.open(wanted, open.path().toAbsolutePath().getParent(), Locale.getDefault());
        try {
            keep();
            Survey survey = Survey.ofProviders();
            Disk disk = survey.disk(open.image(), further.images(), progress);
            OpenDisk surveyed = OpenDisk.surveyed(open.path(), disk, open.image() instanceof OpenImage image ? remarks(image, further) : further.refused());
            boolean[] laid = {false};
            List<String> unopened = further.refused();
            onWindow(() -> {
                laid[0] = desk.open() != null && desk.open().image() == open.image();
                if (laid[0]) {
                    desk.reread(surveyed, Bench.catalogue());
                }
                if (!unopened.isEmpty()) {
                    refused.accept(String.join(" ", unopened));
                }
            });
            if (!laid[0]) {
                return Status.OK_STATUS; // another disk lies on the desk by now
            }
            further = null; // the desk closes them from now on
            open.disk().others().forEach(SectorImage::close);
            Findings findings = survey.verify(disk, Level.QUICK, RuleBook.ofProviders(Locale.getDefault()), progress);
            onWindow(() -> desk.judged(surveyed, findings));
            return Status.OK_STATUS;
        } catch (Progress.Stopped e) {
            return Status.CANCEL_STATUS;
        } finally {
            if (further != null) {
                further.close();
            }
            monitor.done();
        }
    }

    private void keep() {
        try {
            JobFile.change(JobFile.beside(open.path()), job -> job.withFurtherDisks(wanted));
        } catch (IOException e) {
            onWindow(() -> refused.accept(Texts.of("disks.unsaved", String.valueOf(e.getMessage()))));
        }
    }

    private void onWindow(Runnable task) {
        if (!display.isDisposed()) {
            display.syncExec(task);
        }
    }
}
