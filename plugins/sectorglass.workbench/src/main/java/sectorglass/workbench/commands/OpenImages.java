package sectorglass.workbench.commands;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;

import org.eclipse.core.runtime.ICoreRunnable;
import org.eclipse.core.runtime.IProgressMonitor;
import org.eclipse.core.runtime.IStatus;
import org.eclipse.core.runtime.Platform;
import org.eclipse.core.runtime.Status;
import org.eclipse.core.runtime.jobs.Job;
import org.eclipse.jface.dialogs.MessageDialog;
import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.FileDialog;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.ui.IWorkbenchWindow;
import org.eclipse.ui.PlatformUI;

import sectorglass.image.OpenOptions;
import sectorglass.image.ReadMap;
import sectorglass.make.Demo;
import sectorglass.recovery.JobFile;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.opening.Opening;

/** Ways to open an image. */
public final class OpenImages {

    private OpenImages() {
    }

    /** Asks for a file and opens it. */
    public static void ask() {
        FileDialog dialog = new FileDialog(shell(), SWT.OPEN);
        dialog.setText(Texts.of("open.title"));
        dialog.setFilterNames(new String[] {Texts.of("open.all"), Texts.of("open.raw")});
        dialog.setFilterExtensions(new String[] {"*", "*.img;*.dd;*.raw;*.bin;*.001"});
        String chosen = dialog.open();
        if (chosen != null) {
            open(Path.of(chosen));
        }
    }

    /**
     * Opens an image; why it cannot be opened is said in a dialog. Where a read map lies beside it that no job names, the person is asked
     * whether to use it.
     */
    public static void open(Path image) {
        Display display = Display.getCurrent();
        Job.createSystem(Texts.of("job.opening", String.valueOf(image.getFileName())), (ICoreRunnable) monitor -> {
            Optional<Path> map = passesKnown(image) ? Optional.empty() : ReadMap.beside(image);
            if (!display.isDisposed()) {
                display.asyncExec(() -> map.ifPresentOrElse(beside -> ask(image, beside), () -> open(image, OpenOptions.DEFAULT)));
            }
        }).schedule();
    }

    private static void ask(Path image, Path map) {
        String[] answers = {Texts.of("open.map.use"), Texts.of("open.map.without"), Texts.of("open.map.cancel")};
        int answer = new MessageDialog(shell(), Texts.of("open.map.title"), null, Texts.of("open.map", String.valueOf(map.getFileName()),
                String.valueOf(image.getFileName())), MessageDialog.QUESTION, 0, answers).open();
        if (answer == 0 || answer == 1) {
            open(image, answer == 0 ? OpenOptions.DEFAULT.withReadMap(map) : OpenOptions.DEFAULT);
        }
    }

    /** Whether the job beside the image tells what was read. */
    private static boolean passesKnown(Path image) {
        try {
            return !JobFile.open(JobFile.beside(image)).job().passes().isEmpty();
        } catch (IOException e) {
            return false; // the marks tell what is wrong with the job file
        }
    }

    /** Opens an image with options. */
    public static void open(Path image, OpenOptions options) {
        new Opening(image, options, sentence -> MessageDialog.openError(shell(), Texts.of("open.refused"), sentence)).schedule();
    }

    /** Writes the demo disk into the workspace if it is not there, and opens it. */
    public static void demo() {
        demo(Demo.Variant.GPT);
    }

    /** Writes a variant of the demo disk and opens it. */
    public static void demo(Demo.Variant variant) {
        Path folder = Platform.getStateLocation(Platform.getBundle("sectorglass.workbench")).toPath().resolve("demo");
        Display display = Display.getCurrent();
        new Job(Texts.of("job.demo")) {
            @Override
            protected IStatus run(IProgressMonitor monitor) {
                monitor.beginTask(getName(), IProgressMonitor.UNKNOWN);
                try {
                    Demo.Written written = Demo.write(folder, variant);
                    display.asyncExec(() -> open(written.image(), OpenOptions.DEFAULT.withReadMap(written.readMap())));
                } catch (IOException e) {
                    String sentence = Texts.of("demo.failed", String.valueOf(folder), String.valueOf(e.getMessage()));
                    display.asyncExec(() -> MessageDialog.openError(shell(), Texts.of("open.refused"), sentence));
                }
                return Status.OK_STATUS;
            }
        }.schedule();
    }

    static Shell shell() {
        IWorkbenchWindow window = PlatformUI.getWorkbench().getActiveWorkbenchWindow();
        return window == null ? Display.getCurrent().getActiveShell() : window.getShell();
    }
}
