package sectorglass.workbench.parts;

import org.eclipse.swt.layout.FillLayout;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.ui.part.ViewPart;

import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.DeskListener;
import sectorglass.workbench.opening.Bench;

/** A part that shows the desk and hears of its changes. */
abstract class DeskPart extends ViewPart implements DeskListener {

    @Override
    public final void createPartControl(Composite parent) {
        parent.setLayout(new FillLayout());
        create(parent);
        desk().add(this);
        diskChanged();
        explained();
    }

    /** Builds the controls. */
    abstract void create(Composite parent);

    static Desk desk() {
        return Bench.desk();
    }

    @Override
    public void dispose() {
        desk().remove(this);
        super.dispose();
    }
}
