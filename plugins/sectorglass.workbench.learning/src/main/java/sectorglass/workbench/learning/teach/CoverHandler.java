package sectorglass.workbench.learning.teach;

import org.eclipse.core.commands.AbstractHandler;
import org.eclipse.core.commands.ExecutionEvent;

import sectorglass.workbench.model.Cover;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.opening.Bench;

/** Covers fields and uncovers them; the last word of the command's id says what. */
public final class CoverHandler extends AbstractHandler {

    @Override
    public Object execute(ExecutionEvent event) {
        String id = event.getCommand().getId();
        Desk desk = Bench.desk();
        Cover cover = desk.cover();
        switch (id.substring(id.lastIndexOf('.') + 1)) {
            case "cover" -> cover.on(!cover.on());
            case "next" -> cover.next(desk.explained()).ifPresent(desk::choose);
            case "chosen" -> cover.uncover(desk.field());
            default -> cover.again();
        }
        return null;
    }
}
