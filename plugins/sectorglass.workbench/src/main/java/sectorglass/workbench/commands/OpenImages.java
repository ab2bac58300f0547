package sectorglass.workbench.commands;

import java.io.IOException;
import java.nio.file.Path;

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
import sectorglass.make.Demo;
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

    /** Opens an image; why it cannot be opened is said in a dialog. */
    public static void open(Path image) {
        open(image, OpenOptions.DEFAULT);
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
