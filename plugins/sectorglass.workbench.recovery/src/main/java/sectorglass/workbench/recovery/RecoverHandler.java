package sectorglass.workbench.recovery;

import java.nio.file.Path;

import org.eclipse.core.commands.AbstractHandler;
import org.eclipse.core.commands.ExecutionEvent;
import org.eclipse.core.commands.ExecutionException;
import org.eclipse.core.runtime.Platform;
import org.eclipse.jface.dialogs.MessageDialog;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.ui.WorkbenchException;
import org.eclipse.ui.handlers.HandlerUtil;

import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.make.Demo;
import sectorglass.workbench.model.OpenDisk;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.opening.Opening;
import sectorglass.workbench.recovery.approval.Approving;
import sectorglass.workbench.recovery.report.Reporting;
import sectorglass.workbench.recovery.states.ImportDialog;
import sectorglass.workbench.recovery.states.LookAgain;
import sectorglass.workbench.recovery.states.SinceWindow;

/** Does what a command of this bundle asks for; the last word of the command's id says what. */
public final class RecoverHandler extends AbstractHandler {

    @Override
    public Object execute(ExecutionEvent event) throws ExecutionException {
        String id = event.getCommand().getId();
        Shell shell = HandlerUtil.getActiveShell(event);
        switch (id.substring(id.lastIndexOf('.') + 1)) {
            case "demo" -> demo(shell);
            case "states" -> {
                if (Bench.desk().open() != null && Bench.desk().open().image() instanceof OpenImage) {
                    new ImportDialog(shell, Bench.desk().open()).open();
                } else {
                    MessageDialog.openInformation(shell, Words.of("states.title"), Words.of("states.noimage"));
                }
            }
            case "again" -> {
                OpenDisk open = Bench.desk().open();
                if (open != null && open.image() instanceof OpenImage) {
                    LookAgain.start(open, since -> SinceWindow.open(shell, since, open.image().sectorSize(), !Bench.desk().exam().runs()),
                            why -> refuse(shell, why));
                } else {
                    MessageDialog.openInformation(shell, Words.of("again.title"), Words.of("again.noimage"));
                }
            }
            case "report" -> {
                if (Bench.desk().open() != null) {
                    Reporting.ask(shell, Bench.desk().open());
                } else {
                    MessageDialog.openInformation(shell, Words.of("report.title"), Words.of("report.nodisk"));
                }
            }
            case "approval" -> Approving.ask(shell);
            case "perspective" -> {
                try {
                    var window = HandlerUtil.getActiveWorkbenchWindowChecked(event);
                    window.getWorkbench().showPerspective(RecoverPerspective.ID, window);
                } catch (WorkbenchException e) {
                    throw new ExecutionException(id, e);
                }
            }
            default -> throw new ExecutionException(id);
        }
        return null;
    }

    private static void demo(Shell shell) {
        Path folder = Platform.getStateLocation(Platform.getBundle("sectorglass.workbench.recovery")).toPath().resolve("demo");
        new Work<>(Words.of("demo.writing"), progress -> Demo.write(folder, Demo.Variant.PARTLY_READ),
                written -> new Opening(written.image(), OpenOptions.DEFAULT.withReadMap(written.readMap()), why -> refuse(shell, why)).schedule(),
                why -> refuse(shell, why)).schedule();
    }

    private static void refuse(Shell shell, String why) {
        if (why != null) {
            MessageDialog.openError(shell, Words.of("refused"), why);
        }
    }
}
