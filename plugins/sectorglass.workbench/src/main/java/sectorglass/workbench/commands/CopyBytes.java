package sectorglass.workbench.commands;

import org.eclipse.jface.dialogs.MessageDialog;
import org.eclipse.swt.dnd.Clipboard;
import org.eclipse.swt.dnd.TextTransfer;
import org.eclipse.swt.dnd.Transfer;
import org.eclipse.swt.widgets.Display;

import sectorglass.image.ByteRange;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.opening.Bench;

/** Puts the selected bytes, or the one at the caret, on the clipboard. */
public final class CopyBytes {

    private CopyBytes() {
    }

    /** Copies hex pairs. */
    public static void hex() {
        copy(CopyForm.HEX);
    }

    static void copy(CopyForm form) {
        Desk desk = Bench.desk();
        if (desk.open() == null) {
            return;
        }
        ByteRange range = desk.selection() == null ? new ByteRange(desk.caret(), 1) : desk.selection();
        if (range.length() > CopyForm.MOST) {
            MessageDialog.openInformation(OpenImages.shell(), Texts.of("copy.title"),
                    Texts.of("copy.much", Numbers.grouped(range.length()), Numbers.size(CopyForm.MOST)));
            return;
        }
        desk.work(open -> written(open.image().window(range.start(), (int) range.length()), form), Runnable::run);
    }

    /** What is done with the bytes once they were read. */
    private static Runnable written(Window window, CopyForm form) {
        try {
            String text = form.write(window);
            return () -> put(text);
        } catch (UnreadException e) {
            return () -> MessageDialog.openInformation(OpenImages.shell(), Texts.of("copy.title"), Texts.of("copy.unread", e.missing().count()));
        }
    }

    /** Puts a text on the clipboard. */
    public static void put(String text) {
        Clipboard clipboard = new Clipboard(Display.getCurrent());
        clipboard.setContents(new Object[] {text}, new Transfer[] {TextTransfer.getInstance()});
        clipboard.dispose();
    }
}
