package sectorglass.workbench.commands;

import org.eclipse.jface.dialogs.IInputValidator;
import org.eclipse.jface.dialogs.InputDialog;
import org.eclipse.jface.window.Window;

import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.opening.Bench;

/** Asks for a place and goes there. */
final class GoTo {

    private GoTo() {
    }

    static void lba() {
        Desk desk = Bench.desk();
        if (desk.open() != null) {
            int size = desk.open().image().sectorSize();
            ask("goto.lba", desk.open().image().sectors() - 1, size);
        }
    }

    static void imageByte() {
        Desk desk = Bench.desk();
        if (desk.open() != null) {
            ask("goto.byte", desk.open().image().bytes() - 1, 1);
        }
    }

    private static void ask(String key, long last, int unit) {
        Desk desk = Bench.desk();
        IInputValidator validator = text -> {
            Long value = Place.parse(text);
            return value == null ? Texts.of("goto.number") : value < 0 || value > last ? Texts.of("goto.beyond", Numbers.grouped(last)) : null;
        };
        InputDialog dialog = new InputDialog(OpenImages.shell(), Texts.of(key + ".title"), Texts.of(key, Numbers.grouped(last)),
                Long.toString(desk.caret() / unit), validator);
        if (dialog.open() == Window.OK) {
            desk.goTo(Place.parse(dialog.getValue()) * unit, Texts.of("by.hand"));
        }
    }
}
