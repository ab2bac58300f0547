package sectorglass.workbench.compare;

import java.nio.file.Path;
import java.util.List;
import java.util.OptionalLong;

import org.eclipse.core.runtime.IProgressMonitor;
import org.eclipse.core.runtime.IStatus;
import org.eclipse.core.runtime.Status;
import org.eclipse.core.runtime.jobs.Job;
import org.eclipse.jface.dialogs.InputDialog;
import org.eclipse.jface.window.Window;
import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Display;
import org.eclipse.swt.widgets.FileDialog;

import sectorglass.disk.Structure;
import sectorglass.image.ImageException;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.SafeText;
import sectorglass.image.SectorImage;
import sectorglass.recovery.places.Counterparts;
import sectorglass.workbench.commands.PlaceWords;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.opening.Bench;

/** Ways to choose what is compared. */
final class CompareActions {

    private CompareActions() {
    }

    /** The structure at the caret with its other copy; where there are several the first, and the next one at the next call. */
    static void backup(ComparePart part) {
        Desk desk = Bench.desk();
        if (desk.open() == null) {
            return;
        }
        long caret = desk.caret();
        desk.explain(caret, explained -> {
            Structure of = explained == null ? null : explained.structure();
            List<Structure> partners = of == null ? List.of() : Counterparts.of(desk.open().disk(), of);
            if (partners.isEmpty()) {
                part.tell(of == null ? Texts.of("compare.nostructure") : Texts.of("compare.nobackup", SafeText.of(of.name())));
                return;
            }
            Structure other = partners.get(0);
            SectorImage image = desk.open().image();
            part.show(Pair.of(side(of, image), side(other, image), Math.max(of.range().length(), other.range().length())), null,
                    caret - of.range().start());
        });
    }

    private static Side side(Structure structure, SectorImage image) {
        return new Side(SafeText.of(structure.name()) + ", " + Numbers.place(structure.range().start(), image.sectorSize()), image,
                structure.range().start());
    }

    /** The bytes from the caret on with those from another place of the image on. */
    static void place(ComparePart part) {
        Desk desk = Bench.desk();
        if (desk.open() == null) {
            return;
        }
        SectorImage image = desk.open().image();
        long caret = desk.caret();
        PlaceWords words = new PlaceWords(desk.open(), caret);
        String last = Numbers.grouped(Math.max(0, image.sectors() - 1));
        InputDialog dialog = new InputDialog(part.getSite().getShell(), Texts.of("compare.place"), Texts.of("goto.lba", last), "",
                text -> words.address(text).isPresent() ? null : Texts.of("goto.unknown", last));
        if (dialog.open() == Window.OK) {
            OptionalLong other = words.address(dialog.getValue());
            other.ifPresent(at -> places(part, image, caret, at));
        }
    }

    /** Two places of one image, from each on. */
    static void places(ComparePart part, SectorImage image, long one, long other) {
        part.show(Pair.of(new Side(Numbers.place(one, image.sectorSize()), image, one), new Side(Numbers.place(other, image.sectorSize()), image,
                other), Long.MAX_VALUE), null, 0);
    }

    /** The image with another one, from their beginnings on. */
    static void image(ComparePart part) {
        if (Bench.desk().open() == null) {
            return;
        }
        FileDialog dialog = new FileDialog(part.getSite().getShell(), SWT.OPEN);
        dialog.setText(Texts.of("compare.image"));
        String chosen = dialog.open();
        if (chosen != null) {
            image(part, Path.of(chosen));
        }
    }

    /** The image with the one in a file. */
    static void image(ComparePart part, Path file) {
        Desk desk = Bench.desk();
        SectorImage left = desk.open().image();
        long caret = desk.caret();
        Display display = part.getSite().getShell().getDisplay();
        part.tell(Texts.of("job.opening", String.valueOf(file.getFileName())));
        new Job(Texts.of("job.opening", String.valueOf(file.getFileName()))) {
            @Override
            protected IStatus run(IProgressMonitor monitor) {
                monitor.beginTask(getName(), IProgressMonitor.UNKNOWN);
                try {
                    OpenImage right = Images.open(file, OpenOptions.DEFAULT.withLocale(java.util.Locale.getDefault()));
                    display.asyncExec(() -> {
                        if (desk.open() != null && desk.open().image() == left) {
                            part.show(Pair.of(new Side(left.name(), left, 0), new Side(right.name(), right, 0), Long.MAX_VALUE), right, caret);
                        } else {
                            right.close();
                        }
                    });
                } catch (ImageException e) {
                    display.asyncExec(() -> part.tell(String.valueOf(e.getMessage())));
                }
                return Status.OK_STATUS;
            }
        }.schedule();
    }
}
