package sectorglass.workbench.marks;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;

import org.eclipse.jface.dialogs.MessageDialog;
import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.FileDialog;
import org.eclipse.swt.widgets.Shell;

import sectorglass.image.ByteRange;
import sectorglass.recovery.Job.Mark;
import sectorglass.report.MarksOut;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.opening.Bench;

/** What can be done with marks. */
final class MarkActions {

    private MarkActions() {
    }

    /** Marks what is selected, or the field or byte at the caret, and lets it be named. */
    static void add(MarksPart part) {
        Desk desk = Bench.desk();
        if (desk.open() == null) {
            return;
        }
        ByteRange bytes = desk.selection() != null ? desk.selection() : desk.field() != null && desk.field().length() > 0
                ? new ByteRange(desk.field().firstByte(), desk.field().length()) : new ByteRange(desk.caret(), 1);
        Mark mark = new Mark(bytes.start(), bytes.length(), desk.marks().freeName(), null);
        desk.marks().add(mark);
        part.edit(mark);
    }

    /** Asks for a file and writes the marks there: CSV or JSON. */
    static void export(Shell shell, Desk desk) {
        FileDialog dialog = new FileDialog(shell, SWT.SAVE);
        dialog.setText(Texts.of("marks.export"));
        dialog.setFilterNames(new String[] {"CSV", "JSON"});
        dialog.setFilterExtensions(new String[] {"*.csv", "*.json"});
        dialog.setFileName("marks.csv");
        dialog.setOverwrite(true);
        String chosen = dialog.open();
        if (chosen == null || desk.open() == null) {
            return;
        }
        List<Mark> marks = desk.marks().all();
        desk.work(open -> {
            try {
                MarksOut.write(Path.of(chosen), marks, open.image().sectorSize(), open.path());
                return "";
            } catch (IOException e) {
                return Texts.of("marks.export.failed", String.valueOf(e.getMessage()));
            }
        }, sentence -> {
            if (!sentence.isEmpty()) {
                MessageDialog.openError(shell, Texts.of("marks.export"), sentence);
            }
        });
    }
}
