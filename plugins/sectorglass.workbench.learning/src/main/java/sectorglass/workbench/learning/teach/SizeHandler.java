package sectorglass.workbench.learning.teach;

import org.eclipse.core.commands.AbstractHandler;
import org.eclipse.core.commands.ExecutionEvent;

import sectorglass.workbench.look.Size;

/** Makes the letters large for a projector, or gives them back their usual size. */
public final class SizeHandler extends AbstractHandler {

    @Override
    public Object execute(ExecutionEvent event) {
        Size.large(!Size.large());
        return null;
    }
}
