package sectorglass.workbench.marks;

import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Text;

import sectorglass.recovery.Job.Mark;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Desk;

/** Name, place and note of one mark. What was typed holds when the field is left or Enter is pressed; Escape gives it up. */
final class MarkForm {
    private final Desk desk;
    private final Composite all;
    private final Text name;
    private final Text first;
    private final Text length;
    private final Text note;
    private Mark shown;
    private boolean showing;

    MarkForm(Composite parent, Desk desk) {
        this.desk = desk;
        all = new Composite(parent, SWT.NONE);
        GridLayout grid = new GridLayout(4, false);
        grid.marginHeight = 0;
        all.setLayout(grid);
        name = field("marks.name", 3, SWT.BORDER);
        first = field("marks.first", 1, SWT.BORDER);
        length = field("marks.length", 1, SWT.BORDER);
        note = field("marks.note", 3, SWT.BORDER | SWT.MULTI | SWT.WRAP | SWT.V_SCROLL);
        GridData tall = new GridData(SWT.FILL, SWT.FILL, true, true, 3, 1);
        tall.heightHint = 40;
        note.setLayoutData(tall);
        show(null);
    }

    private Text field(String key, int columns, int style) {
        Label label = new Label(all, SWT.NONE);
        label.setText(Texts.of(key));
        label.setLayoutData(new GridData(SWT.BEGINNING, SWT.BEGINNING, false, false));
        Text text = new Text(all, style);
        text.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false, columns, 1));
        text.addListener(SWT.FocusOut, event -> take());
        if ((style & SWT.MULTI) == 0) {
            text.addListener(SWT.DefaultSelection, event -> take());
        } else {
            text.addListener(SWT.Traverse, event -> event.doit = event.doit || event.detail == SWT.TRAVERSE_TAB_NEXT
                    || event.detail == SWT.TRAVERSE_TAB_PREVIOUS);
        }
        text.addListener(SWT.KeyDown, event -> {
            if (event.keyCode == SWT.ESC) {
                show(shown);
            }
        });
        return text;
    }

    /** The mark in the form, or null. */
    Mark shown() {
        return shown;
    }

    void show(Mark mark) {
        showing = true;
        shown = mark;
        for (Text text : new Text[] {name, first, length, note}) {
            text.setEnabled(mark != null);
        }
        name.setText(mark == null ? "" : String.valueOf(mark.name()));
        first.setText(mark == null ? "" : Long.toString(mark.firstByte()));
        first.setToolTipText(mark == null ? null : "0x" + Numbers.hex(mark.firstByte(), 1));
        length.setText(mark == null ? "" : Long.toString(mark.length()));
        note.setText(mark == null || mark.note() == null ? "" : mark.note());
        showing = false;
    }

    /** Lets the name be typed. */
    void edit() {
        name.setFocus();
        name.selectAll();
    }

    private void take() {
        if (shown == null || showing) {
            return;
        }
        long from = number(first.getText(), shown.firstByte(), 0);
        long count = number(length.getText(), shown.length(), 1);
        if (desk.open() != null) {
            long end = desk.open().image().bytes();
            from = Math.min(from, Math.max(0, end - 1));
            count = Math.max(1, Math.min(count, end - from));
        }
        String called = name.getText().isBlank() ? shown.name() : name.getText().strip();
        Mark former = shown;
        Mark changed = new Mark(from, count, called, note.getText().isBlank() ? null : note.getText());
        if (!changed.equals(former)) {
            shown = changed;
            desk.marks().replace(former, changed);
        }
    }

    private static long number(String typed, long otherwise, long least) {
        try {
            return Math.max(least, Long.decode(typed.strip().replaceAll("[\\s\u2009_]", "")));
        } catch (NumberFormatException e) {
            return otherwise;
        }
    }
}
