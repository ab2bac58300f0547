package sectorglass.workbench.byhand;

import java.util.List;

import org.eclipse.core.runtime.IProgressMonitor;
import org.eclipse.core.runtime.IStatus;
import org.eclipse.core.runtime.Status;
import org.eclipse.core.runtime.jobs.Job;
import org.eclipse.jface.dialogs.MessageDialog;
import org.eclipse.jface.viewers.LabelProvider;
import org.eclipse.jface.window.Window;
import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.ui.dialogs.ElementListSelectionDialog;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.FieldNode;
import sectorglass.decode.FieldWalk;
import sectorglass.decode.Format;
import sectorglass.decode.FormatInfo;
import sectorglass.decode.SpecException;
import sectorglass.disk.Structure;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.OpenDisk;
import sectorglass.workbench.opening.Bench;

/** Puts a format that a person chooses over the bytes from the caret on, or over the selected ones. */
public final class ApplyFormat {
    /** How many bytes a format may look at where none are selected, as on the command line. */
    private static final int MOST = 1 << 16;

    private ApplyFormat() {
    }

    /** Asks for a format and applies it at the caret. For the thread of the window. */
    public static void ask(Shell shell) {
        Desk desk = Bench.desk();
        if (desk.open() == null) {
            return;
        }
        ElementListSelectionDialog dialog = new ElementListSelectionDialog(shell, LabelProvider.createTextProvider(
                element -> ((FormatInfo) element).title() + "  \u00B7  " + ((FormatInfo) element).id()));
        dialog.setTitle(Texts.of("byhand.title"));
        dialog.setMessage(Texts.of("byhand.ask"));
        dialog.setElements(Bench.catalogue().formats().toArray());
        dialog.setMultipleSelection(false);
        if (dialog.open() == Window.OK && dialog.getFirstResult() instanceof FormatInfo format) {
            apply(format, shell);
        }
    }

    /** Applies a format at the caret, or to the selected bytes, and keeps that choice for this image. */
    public static void apply(FormatInfo chosen, Shell shell) {
        Desk desk = Bench.desk();
        OpenDisk open = desk.open();
        ByteRange selected = desk.ownSelection();
        long at = selected != null ? selected.start() : desk.caret();
        long wanted = selected != null ? selected.length() : 0;
        Display display = Display.getCurrent();
        new Job(Texts.of("byhand.title")) {
            @Override
            protected IStatus run(IProgressMonitor monitor) {
                try {
                    Format format = Bench.catalogue().load(chosen.id());
                    List<String> needed = format.params().stream().filter(name -> !name.equals(HandMemory.SECTOR_SIZE)).toList();
                    if (!needed.isEmpty()) {
                        tell(display, shell, Texts.of("byhand.needs", chosen.id(), String.join(", ", needed)));
                        return Status.OK_STATUS;
                    }
                    boolean sized = !format.params().isEmpty();
                    int length = wanted > 0 ? (int) Math.min(wanted, Decoder.MAX_WINDOW) : length(format, chosen, sized, open.image(), at);
                    Structure structure = HandMemory.structure(chosen, at, length, sized, open.image().sectorSize());
                    display.asyncExec(() -> {
                        if (desk.open() != null && desk.open().image() == open.image()) {
                            desk.apply(structure);
                            HandMemory.keep(open.path(), structure);
                        }
                    });
                } catch (SpecException e) {
                    tell(display, shell, Texts.of("byhand.failed", chosen.id(), String.valueOf(e.getMessage())));
                }
                return Status.OK_STATUS;
            }
        }.schedule();
    }

    /** The bytes that the format explains; one sector where it would take all there are. */
    private static int length(Format format, FormatInfo chosen, boolean sized, SectorImage image, long at) {
        int most = (int) Math.min(MOST, image.bytes() - at);
        Structure whole = HandMemory.structure(chosen, at, most, sized, image.sectorSize());
        FieldNode root = Decoder.decode(format, whole.reader().read(image), DecodeOptions.DEFAULT.withParams(whole.params()));
        long end = FieldWalk.values(root).stream().filter(node -> node.length() > 0).mapToLong(node -> node.firstByte() + node.length()).max()
                .orElse(at + 1);
        long used = Math.max(1, end - at);
        return (int) Math.min(most, used >= most ? image.sectorSize() : used);
    }

    private static void tell(Display display, Shell shell, String sentence) {
        display.asyncExec(() -> MessageDialog.openInformation(shell, Texts.of("byhand.title"), sentence));
    }

    /** Takes the format away that a person put over the caret, for good. */
    public static void withdraw() {
        Desk desk = Bench.desk();
        Structure taken = desk.withdraw();
        if (taken != null) {
            HandMemory.forget(desk.open().path(), taken);
        }
    }
}
