package sectorglass.workbench.sectors;

import org.eclipse.swt.accessibility.AccessibleAdapter;
import org.eclipse.swt.accessibility.AccessibleEvent;

import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Desk;

/** Tells assistive technology what the canvas is and where its caret stands. */
final class SectorsAccess extends AccessibleAdapter {
    private final Desk desk;

    SectorsAccess(Desk desk) {
        this.desk = desk;
    }

    @Override
    public void getName(AccessibleEvent e) {
        e.result = Texts.of("part.sectors");
    }

    @Override
    public void getDescription(AccessibleEvent e) {
        e.result = desk.open() == null ? "" : Numbers.place(desk.caret(), desk.open().image().sectorSize());
    }
}
