package sectorglass.workbench.learning.lesson;

import java.util.function.IntConsumer;

import org.eclipse.core.commands.AbstractHandler;
import org.eclipse.core.commands.ExecutionEvent;
import org.eclipse.core.commands.ExecutionException;
import org.eclipse.ui.IViewPart;
import org.eclipse.ui.IWorkbenchWindow;
import org.eclipse.ui.WorkbenchException;
import org.eclipse.ui.handlers.HandlerUtil;

/** Opens the perspective, walks through the steps of the open lesson, asks for judgement; the last word of the command's id says what. */
public final class LessonHandler extends AbstractHandler {
    private static final String WAY = "sectorglass.workbench.recovery.way";

    @Override
    public Object execute(ExecutionEvent event) throws ExecutionException {
        String id = event.getCommand().getId();
        IWorkbenchWindow window = HandlerUtil.getActiveWorkbenchWindowChecked(event);
        String word = id.substring(id.lastIndexOf('.') + 1);
        if (word.equals("perspective")) {
            try {
                window.getWorkbench().showPerspective(LearnPerspective.ID, window);
                window.getActivePage().showView(LessonsPart.ID);
            } catch (WorkbenchException e) {
                throw new ExecutionException(id, e);
            }
            return null;
        }
        IViewPart way = window.getActivePage().findView(WAY);
        IntConsumer walk = way == null || !window.getActivePage().isPartVisible(way) ? null : way.getAdapter(IntConsumer.class);
        if (walk != null && !word.equals("check")) {
            walk.accept(word.equals("next") ? 1 : -1); // a way is walked by the same keys
        } else if (window.getActivePage().findView(LessonsPart.ID) instanceof LessonsPart part && part.page() != null) {
            switch (word) {
                case "next" -> part.page().go(1);
                case "previous" -> part.page().go(-1);
                case "check" -> part.page().check();
                default -> throw new ExecutionException(id);
            }
        }
        return null;
    }
}
