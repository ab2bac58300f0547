package sectorglass.workbench.marks;

import org.eclipse.core.commands.AbstractHandler;
import org.eclipse.core.commands.ExecutionEvent;
import org.eclipse.core.commands.ExecutionException;
import org.eclipse.ui.PartInitException;
import org.eclipse.ui.handlers.HandlerUtil;

import sectorglass.workbench.opening.Bench;

/** The commands about marks; the last word of the command's id says which. */
public final class MarkHandler extends AbstractHandler {

    @Override
    public Object execute(ExecutionEvent event) throws ExecutionException {
        String id = event.getCommand().getId();
        try {
            switch (id.substring(id.lastIndexOf('.') + 1)) {
                case "add" -> {
                    MarksPart part = (MarksPart) HandlerUtil.getActiveWorkbenchWindowChecked(event).getActivePage().showView(MarksPart.ID);
                    MarkActions.add(part);
                }
                case "undo" -> Bench.desk().marks().undo();
                case "redo" -> Bench.desk().marks().redo();
                default -> throw new ExecutionException(id);
            }
        } catch (PartInitException e) {
            throw new ExecutionException(id, e);
        }
        return null;
    }
}
