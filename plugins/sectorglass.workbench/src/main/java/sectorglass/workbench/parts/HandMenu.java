package sectorglass.workbench.parts;

import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Menu;
import org.eclipse.swt.widgets.MenuItem;

import sectorglass.workbench.byhand.ApplyFormat;
import sectorglass.workbench.look.Texts;

/** The menu by which a format is put over the caret and taken away again. */
final class HandMenu {

    private HandMenu() {
    }

    static void add(Control control) {
        Menu menu = new Menu(control);
        item(menu, "byhand.menu", () -> ApplyFormat.ask(control.getShell()));
        item(menu, "byhand.withdraw", ApplyFormat::withdraw);
        control.setMenu(menu);
    }

    private static void item(Menu menu, String key, Runnable action) {
        MenuItem item = new MenuItem(menu, SWT.PUSH);
        item.setText(Texts.of(key));
        item.addListener(SWT.Selection, event -> action.run());
    }
}
