package sectorglass.workbench.look;

import java.util.ArrayList;
import java.util.List;

import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.Listener;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.TableItem;
import org.eclipse.swt.widgets.Widget;

/**
 * Takes all rows out of a virtual table. On GTK the toolkit asks for rows while it takes them away and makes items for rows that are gone;
 * whoever touches such an item later (a change of theme does) ends the process. They are caught and disposed here.
 */
public final class VirtualRows {

    private VirtualRows() {
    }

    /** Empties a table made with {@link SWT#VIRTUAL}. */
    public static void clear(Table table) {
        Display display = table.getDisplay();
        List<Widget> stale = new ArrayList<>();
        Listener catcher = event -> {
            if (event.widget == table) {
                stale.add(event.item);
                event.type = SWT.None;
            }
        };
        display.addFilter(SWT.SetData, catcher);
        try {
            table.deselectAll();
            table.setItemCount(0);
        } finally {
            display.removeFilter(SWT.SetData, catcher);
        }
        for (Widget item : stale) {
            if (item instanceof TableItem && !item.isDisposed()) {
                item.dispose();
            }
        }
        table.removeAll();
    }
}
