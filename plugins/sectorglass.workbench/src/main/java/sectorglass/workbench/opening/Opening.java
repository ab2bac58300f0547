package sectorglass.workbench.opening;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import java.util.stream.Collectors;

import org.eclipse.core.runtime.IProgressMonitor;
import org.eclipse.core.runtime.IStatus;
import org.eclipse.core.runtime.Status;
import org.eclipse.core.runtime.jobs.Job;
import org.eclipse.swt.widgets.Display;

import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.PartEvidence;
import sectorglass.disk.Survey;
import sectorglass.image.ImageException;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.PartOrder;
import sectorglass.image.Progress;
import sectorglass.recovery.FurtherDisks;
import sectorglass.recovery.JobFile;
import sectorglass.recovery.JobParts;
import sectorglass.recovery.JobPasses;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.OpenDisk;

/** Opens an image and puts it on the desk: surveyed first, judged as soon as the checks have run. Can be stopped. */
public final class Opening extends Job {
    private static final int MOST_NUMBERS = 20;

    private final Path path;
    private final OpenOptions options;
    private final Desk desk;
    private final Display display;
    private final Consumer<String> refused;
    private boolean listed = true;

    /**
     * Prepares to open an image; {@link #schedule} begins. For the thread of the window.
     *
     * @param refused hears on the window's thread why the image cannot be opened, as one or two sentences
     */
    public Opening(Path path, OpenOptions options, Consumer<String> refused) {
        super(Texts.of("job.opening", String.valueOf(path.getFileName())));
        this.path = path;
        this.options = options;
        this.desk = Bench.desk();
        this.display = Display.getCurrent();
        this.refused = refused;
        setUser(false);
    }

    /** Leaves the image out of the list of recent ones, and does not open it again at the next start: the disk of a lesson, for instance. */
    public Opening unlisted() {
        listed = false;
        return this;
    }

    @Override
    protected IStatus run(IProgressMonitor monitor) {
        monitor.beginTask(getName(), IProgressMonitor.UNKNOWN);
        Progress progress = new JobProgress(monitor);
        OpenImage image = null;
        FurtherDisks further = null;
        try {
            image = withPasses(Images.open(path, withParts().withLocale(Locale.getDefault())));
            further = listed ? Regrouping.kept(path) : new FurtherDisks(List.of(), List.of());
            Survey survey = Survey.ofProviders();
            Disk disk = survey.disk(image, further.images(), progress);
            OpenDisk surveyed = OpenDisk.surveyed(path, disk, Regrouping.remarks(image, further));
            onWindow(() -> {
                if (listed) {
                    Recent.add(path);
                }
                Session.opened(listed ? options : null);
                desk.show(surveyed, Bench.catalogue());
            });
            image = null; // the desk closes them from now on
            further = null;
            Findings findings = survey.verify(disk, Level.QUICK, RuleBook.ofProviders(Locale.getDefault()), progress);
            onWindow(() -> desk.judged(surveyed, findings));
            order((OpenImage) disk.image(), disk, findings);
            return Status.OK_STATUS;
        } catch (ImageException e) {
            onWindow(() -> refused.accept(e.getMessage()));
            return Status.OK_STATUS;
        } catch (Progress.Stopped e) {
            return Status.CANCEL_STATUS;
        } finally {
            if (image != null) {
                image.close();
            }
            if (further != null) {
                further.close();
            }
            monitor.done();
        }
    }

    /** The order of parts that the job beside the image keeps, unless the person names the parts. */
    private OpenOptions withParts() {
        if (!listed || !options.parts().isEmpty() || options.partList() != null || options.alone()) {
            return options;
        }
        Path file = JobFile.beside(path);
        try {
            return options.withGivenParts(JobParts.given(JobFile.open(file).job(), file));
        } catch (IOException e) {
            return options; // the marks tell what is wrong with the job file
        }
    }

    /** Says so where structures speak for another order of the parts. */
    private void order(OpenImage image, Disk disk, Findings findings) {
        PartOrder order = PartEvidence.of(image, disk, findings);
        if (order != null && order.wrong()) {
            String numbers = order.proposed().stream().map(i -> Integer.toString(i + 1)).limit(MOST_NUMBERS).collect(Collectors.joining(", "));
            onWindow(() -> desk.remarked(image, Texts.of("parts.remark", numbers + (order.proposed().size() > MOST_NUMBERS ? " …" : ""))));
        }
    }

    /** The passes that the job beside the image records tell what was read, unless the person named another read map. */
    private OpenImage withPasses(OpenImage image) throws ImageException {
        Path file = JobFile.beside(path);
        sectorglass.recovery.Job job;
        try {
            job = JobFile.open(file).job();
        } catch (IOException e) {
            return image; // the marks tell what is wrong with the job file
        }
        if (job.passes().isEmpty() || options.readMap() != null && !JobPasses.has(job, file, options.readMap())) {
            return image;
        }
        return image.withStates(JobPasses.applied(image.states(), JobPasses.history(job, file, image.sectors())));
    }

    private void onWindow(Runnable task) {
        if (!display.isDisposed()) {
            display.syncExec(task);
        }
    }
}
