package sectorglass.workbench.recovery.proposals;

import org.eclipse.core.commands.AbstractHandler;
import org.eclipse.core.commands.ExecutionEvent;
import org.eclipse.jface.dialogs.MessageDialog;
import org.eclipse.jface.window.Window;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.ui.handlers.HandlerUtil;

import sectorglass.recovery.propose.FieldValue;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.Explained;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.recovery.Words;

/** Changes the value of the field at the caret over the image, takes such a change back, or puts it on again. */
public final class ChangeHandler extends AbstractHandler {

    @Override
    public Object execute(ExecutionEvent event) {
        String id = event.getCommand().getId();
        switch (id.substring(id.lastIndexOf('.') + 1)) {
            case "undo" -> Corrections.get().undo();
            case "redo" -> Corrections.get().redo();
            default -> change(HandlerUtil.getActiveShell(event));
        }
        return null;
    }

    private static void change(Shell shell) {
        Desk desk = Bench.desk();
        Explained explained = desk.explained();
        FieldValue field = desk.field() == null || explained == null || explained.root() == null ? null
                : FieldValue.of(desk.field(), explained.root(), explained.window());
        if (field == null) {
            MessageDialog.openInformation(shell, Words.of("change.title"), Words.of("change.none"));
            return;
        }
        ChangeDialog dialog = new ChangeDialog(shell, field, Corrections.get().seen());
        if (dialog.open() == Window.OK) {
            Corrections.get().change(field.field().label(), field.field().firstByte(), dialog.bytes(), dialog.following());
        }
    }
}
