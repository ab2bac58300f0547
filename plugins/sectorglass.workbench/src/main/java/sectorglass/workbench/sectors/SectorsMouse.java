package sectorglass.workbench.sectors;

import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Event;

import sectorglass.decode.FieldNode;
import sectorglass.image.ByteRange;
import sectorglass.image.SafeText;
import sectorglass.recovery.Job;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.Span;

/** Moves the caret, selects and explains by the mouse. */
final class SectorsMouse {
    private final SectorsCanvas canvas;
    private final Desk desk;
    private boolean dragging;

    SectorsMouse(SectorsCanvas canvas, Desk desk) {
        this.canvas = canvas;
        this.desk = desk;
        canvas.addListener(SWT.MouseDown, this::down);
        canvas.addListener(SWT.MouseUp, event -> dragging = false);
        canvas.addListener(SWT.MouseMove, this::move);
        canvas.addListener(SWT.MouseDoubleClick, this::twice);
        canvas.addListener(SWT.MouseHover, this::hover);
    }

    private void down(Event event) {
        canvas.setFocus();
        if (desk.open() == null || event.button != 1) {
            return;
        }
        Span label = canvas.labelAt(event.x, event.y);
        if (label != null) {
            canvas.anchor(-1);
            desk.choose(label.node());
            return;
        }
        long address = canvas.addressAt(event.x, event.y);
        if (address < 0) {
            return;
        }
        if ((event.stateMask & SWT.MOD2) != 0) {
            if (canvas.anchor() < 0) {
                canvas.anchor(desk.caret());
            }
            desk.select(canvas.anchor(), address);
        } else {
            canvas.anchor(-1);
            desk.move(address);
            canvas.anchor(address);
        }
        dragging = true;
    }

    private void move(Event event) {
        if (!dragging || desk.open() == null) {
            return;
        }
        if (event.y > canvas.getClientArea().height) {
            canvas.top(canvas.top() + 1);
        } else if (event.y < 0) {
            canvas.top(canvas.top() - 1);
        }
        long address = canvas.addressAt(event.x, event.y);
        if (address >= 0 && address != desk.caret()) {
            desk.select(canvas.anchor(), address);
        }
    }

    /** The marks on a byte in words, or null. */
    private String marks(long address) {
        StringBuilder text = new StringBuilder();
        for (Job.Mark mark : desk.marks().in(new ByteRange(address, 1))) {
            text.append(text.isEmpty() ? "" : "\n").append(SafeText.of(mark.name()));
            if (mark.note() != null && !mark.note().isBlank()) {
                text.append(": ").append(SafeText.of(mark.note()));
            }
        }
        return text.isEmpty() ? null : text.toString().replace("&", "&&");
    }

    private void twice(Event event) {
        FieldNode field = desk.field();
        if (field != null && event.button == 1) {
            desk.choose(field);
        }
    }

    private void hover(Event event) {
        Span label = canvas.labelAt(event.x, event.y);
        if (label == null) {
            long address = desk.open() == null ? -1 : canvas.addressAt(event.x, event.y);
            canvas.setToolTipText(address < 0 ? null : marks(address));
            return;
        }
        FieldNode node = label.node();
        if (desk.cover().hides(node)) {
            canvas.setToolTipText(Texts.of("cover.tip"));
            return;
        }
        StringBuilder text = new StringBuilder(node.label());
        if (node.value() != null) {
            text.append(": ").append(node.value());
        }
        if (node.meaning() != null && !node.meaning().equals(node.value())) {
            text.append("\n").append(node.meaning());
        }
        text.append("\n").append(Numbers.place(node.firstByte(), desk.open().image().sectorSize()));
        if (node.bits() > 0) {
            text.append("\n").append(Texts.of(node.bitsFromLeast() ? "tip.bits.least" : "tip.bits.most", node.bits(), node.bit()));
        }
        if (label.finding() != null) {
            text.append("\n").append(label.finding().what());
        }
        // an ampersand is a mnemonic in a tool tip
        canvas.setToolTipText(SafeText.of(text.toString().replace("\n", "\u2028")).replace("\\u{2028}", "\n").replace("&", "&&"));
    }
}
