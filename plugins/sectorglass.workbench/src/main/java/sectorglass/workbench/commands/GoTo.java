package sectorglass.workbench.commands;

import java.util.OptionalLong;

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

    /** A place as people name it; a bare number is an LBA. */
    static void place() {
        Desk desk = Bench.desk();
        if (desk.open() != null) {
            long sectors = desk.open().image().sectors();
            ask("goto.lba", Numbers.grouped(Math.max(0, sectors - 1)), Long.toString(desk.caret() / desk.open().image().sectorSize()), "");
        }
    }

    /** A byte of the image. */
    static void imageByte() {
        Desk desk = Bench.desk();
        if (desk.open() != null) {
            ask("goto.byte", Numbers.grouped(desk.open().image().bytes() - 1), Long.toString(desk.caret()), "byte ");
        }
    }

    private static void ask(String key, String last, String initial, String prefix) {
        Desk desk = Bench.desk();
        PlaceWords words = new PlaceWords(desk.open(), desk.caret());
        IInputValidator validator = text -> words.address(prefix + text).isPresent() ? null : Texts.of("goto.unknown", last);
        InputDialog dialog = new InputDialog(OpenImages.shell(), Texts.of(key + ".title"), Texts.of(key, last), initial, validator);
        if (dialog.open() == Window.OK) {
            OptionalLong address = words.address(prefix + dialog.getValue());
            address.ifPresent(at -> desk.goTo(at, prefix.isEmpty() && !dialog.getValue().strip().matches("[0-9x ]+")
                    ? dialog.getValue().strip() : Texts.of("by.hand")));
        }
    }
}
