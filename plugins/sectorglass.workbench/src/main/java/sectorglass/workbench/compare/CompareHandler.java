package sectorglass.workbench.compare;

import org.eclipse.core.commands.AbstractHandler;
import org.eclipse.core.commands.ExecutionEvent;
import org.eclipse.core.commands.ExecutionException;
import org.eclipse.ui.PartInitException;
import org.eclipse.ui.handlers.HandlerUtil;

/** The commands about comparing; the last word of the command's id says which. */
public final class CompareHandler extends AbstractHandler {

    @Override
    public Object execute(ExecutionEvent event) throws ExecutionException {
        String id = event.getCommand().getId();
        try {
            ComparePart part = (ComparePart) HandlerUtil.getActiveWorkbenchWindowChecked(event).getActivePage().showView(ComparePart.ID);
            switch (id.substring(id.lastIndexOf('.') + 1)) {
                case "backup" -> CompareActions.backup(part);
                case "place" -> CompareActions.place(part);
                case "image" -> CompareActions.image(part);
                case "next" -> part.next();
                case "previous" -> part.previous();
                default -> throw new ExecutionException(id);
            }
        } catch (PartInitException e) {
            throw new ExecutionException(id, e);
        }
        return null;
    }
}
