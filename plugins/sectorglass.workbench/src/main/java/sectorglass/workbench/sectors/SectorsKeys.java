package sectorglass.workbench.sectors;

import java.util.Comparator;
import java.util.List;

import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Event;

import sectorglass.image.ByteRange;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.Span;

/** Moves the caret by keys. */
final class SectorsKeys {
    private final SectorsCanvas canvas;
    private final Desk desk;
    private final Runnable copy;

    SectorsKeys(SectorsCanvas canvas, Desk desk, Runnable copy) {
        this.canvas = canvas;
        this.copy = copy;
        this.desk = desk;
        canvas.addListener(SWT.KeyDown, this::pressed);
        canvas.addListener(SWT.Traverse, event -> {
            if (event.detail == SWT.TRAVERSE_TAB_NEXT || event.detail == SWT.TRAVERSE_TAB_PREVIOUS) {
                event.doit = true;
            } else if (event.detail == SWT.TRAVERSE_RETURN || event.detail == SWT.TRAVERSE_PAGE_NEXT
                    || event.detail == SWT.TRAVERSE_PAGE_PREVIOUS || event.detail == SWT.TRAVERSE_ARROW_NEXT
                    || event.detail == SWT.TRAVERSE_ARROW_PREVIOUS) {
                event.doit = false;
            }
        });
    }

    private void pressed(Event event) {
        if (desk.open() == null) {
            return;
        }
        boolean whole = (event.stateMask & SWT.MOD1) != 0;
        boolean bySector = (event.stateMask & SWT.MOD3) != 0;
        if (bySector && event.keyCode != SWT.PAGE_UP && event.keyCode != SWT.PAGE_DOWN) {
            return;
        }
        long caret = desk.caret();
        long columns = canvas.columns();
        long last = desk.open().image().bytes() - 1;
        long page = columns * Math.max(1, canvas.fullRows() - 1);
        switch (event.keyCode) {
            case SWT.ARROW_LEFT -> go(event, whole ? field(caret, false) : caret - 1);
            case SWT.ARROW_RIGHT -> go(event, whole ? field(caret, true) : caret + 1);
            case SWT.ARROW_UP -> {
                if (whole) {
                    canvas.top(canvas.top() - 1);
                } else {
                    go(event, caret >= columns ? caret - columns : caret);
                }
            }
            case SWT.ARROW_DOWN -> {
                if (whole) {
                    canvas.top(canvas.top() + 1);
                } else {
                    go(event, caret + columns <= last ? caret + columns : caret);
                }
            }
            case SWT.PAGE_UP -> go(event, bySector ? caret - caret % sector() - (caret % sector() == 0 ? sector() : 0)
                    : Math.max(caret % columns, caret - page));
            case SWT.PAGE_DOWN -> go(event, bySector ? caret - caret % sector() + sector() : Math.min(last, caret + page));
            case SWT.HOME -> go(event, whole ? 0 : caret - caret % columns);
            case SWT.END -> go(event, whole ? last : caret - caret % columns + columns - 1);
            case SWT.CR, SWT.KEYPAD_CR -> desk.follow();
            case SWT.BS -> desk.back();
            case SWT.ESC -> {
                canvas.anchor(-1);
                desk.move(caret);
            }
            case 'c' -> {
                if (!whole) {
                    return;
                }
                copy.run();
            }
            case 'a' -> {
                if (!whole) {
                    return;
                }
                canvas.anchor(0);
                desk.select(0, last);
            }
            default -> {
                return;
            }
        }
        event.doit = false;
    }

    private long sector() {
        return desk.open().image().sectorSize();
    }

    private void go(Event event, long address) {
        if ((event.stateMask & SWT.MOD2) != 0) {
            if (canvas.anchor() < 0) {
                canvas.anchor(desk.caret());
            }
            desk.select(canvas.anchor(), address);
        } else {
            canvas.anchor(-1);
            desk.move(address);
        }
    }

    /** The first byte of the next field, or of this or the one before. */
    private long field(long caret, boolean forward) {
        long from = Math.max(0, caret - 4096);
        long to = Math.min(desk.open().image().bytes(), caret + 4096);
        List<Span> near = desk.gloss().in(new ByteRange(from, to - from));
        return forward
                ? near.stream().map(Span::start).filter(start -> start > caret).min(Comparator.naturalOrder()).orElse(caret + 1)
                : near.stream().map(Span::start).filter(start -> start < caret).max(Comparator.naturalOrder()).orElse(caret - 1);
    }
}
