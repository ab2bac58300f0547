package sectorglass.workbench.compare;

import java.util.concurrent.Executor;

import org.eclipse.jface.resource.JFaceResources;
import org.eclipse.swt.SWT;
import org.eclipse.swt.accessibility.AccessibleAdapter;
import org.eclipse.swt.accessibility.AccessibleEvent;
import org.eclipse.swt.graphics.GC;
import org.eclipse.swt.widgets.Canvas;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Event;

import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.pages.Pages;
import sectorglass.workbench.sectors.Scroll;

/** The rows of both sides, scrolled together, with a caret that stands in both. */
final class TwinCanvas extends Canvas {
    private static final int PATIENCE = 8;

    private Pair pair;
    private Pages left;
    private Pages right;
    private TwinLayout layout;
    private long top;
    private long caret;
    private Runnable moved = () -> { };

    TwinCanvas(Composite parent) {
        super(parent, SWT.V_SCROLL | SWT.DOUBLE_BUFFERED | SWT.NO_BACKGROUND | SWT.BORDER);
        addListener(SWT.Paint, this::paint);
        addListener(SWT.Resize, event -> lay());
        addListener(SWT.Dispose, event -> show(null));
        addListener(SWT.KeyDown, this::key);
        addListener(SWT.Traverse, event -> event.doit = event.detail == SWT.TRAVERSE_TAB_NEXT || event.detail == SWT.TRAVERSE_TAB_PREVIOUS);
        addListener(SWT.MouseDown, this::down);
        addListener(SWT.MouseVerticalWheel, event -> top(top - event.count));
        getVerticalBar().addListener(SWT.Selection, this::scrolled);
        getAccessible().addAccessibleListener(new AccessibleAdapter() {
            @Override
            public void getName(AccessibleEvent e) {
                e.result = Texts.of("part.compare");
            }

            @Override
            public void getDescription(AccessibleEvent e) {
                e.result = pair == null ? "" : Numbers.place(pair.left().start() + caret, pair.left().image().sectorSize());
            }
        });
    }

    /** Hears that the caret moved. */
    void onMove(Runnable hears) {
        moved = hears;
    }

    /** Shows another pair, or none. */
    void show(Pair other) {
        if (left != null) {
            left.close();
            right.close();
        }
        pair = other;
        top = 0;
        caret = 0;
        if (other != null) {
            Executor window = task -> {
                if (!isDisposed()) {
                    getDisplay().asyncExec(() -> {
                        if (!isDisposed()) {
                            task.run();
                        }
                    });
                }
            };
            left = new Pages(other.left().image(), Pages.reader(), window, this::redraw);
            right = new Pages(other.right().image(), Pages.reader(), window, this::redraw);
        } else {
            left = null;
            right = null;
        }
        if (!isDisposed()) {
            lay();
        }
    }

    Pair pair() {
        return pair;
    }

    /** Offset of the caret from the starts of both sides. */
    long caret() {
        return caret;
    }

    /** Moves the caret, clamped, and brings it into view. */
    void caret(long offset) {
        caret = Math.max(0, Math.min(offset, pair.length() - 1));
        long row = caret / layout.columns();
        if (row < top) {
            top(row);
        } else if (row >= top + page()) {
            top(row - page() / 2);
        }
        redraw();
        moved.run();
    }

    /** What is known of both sides at a stretch. */
    Twin twin(long offset, int count) {
        return new Twin(left.soon(pair.left().start() + offset, count, PATIENCE), right.soon(pair.right().start() + offset, count, PATIENCE));
    }

    private void lay() {
        GC gc = new GC(this);
        gc.setFont(JFaceResources.getTextFont());
        double advance = gc.stringExtent("0".repeat(100)).x / 100.0;
        int line = gc.getFontMetrics().getHeight() + 4;
        gc.dispose();
        long last = pair == null ? 0 : Math.max((pair.left().start() + pair.length()) / pair.left().image().sectorSize(),
                (pair.right().start() + pair.length()) / pair.right().image().sectorSize());
        long address = layout == null ? 0 : top * layout.columns();
        layout = TwinLayout.of(advance, line, Numbers.grouped(Long.toString(last), ' ').length() + 10, getClientArea().width);
        top = Math.min(address / layout.columns(), scroll().last());
        updateBar();
        redraw();
    }

    private int page() {
        return Math.max(1, (getClientArea().height - layout.header()) / layout.line());
    }

    private Scroll scroll() {
        long length = pair == null ? 0 : pair.length();
        return new Scroll(Math.max(1, (length + layout.columns() - 1) / layout.columns()), page());
    }

    private void top(long row) {
        top = Math.max(0, Math.min(row, scroll().last()));
        updateBar();
        redraw();
    }

    private void updateBar() {
        Scroll scroll = scroll();
        getVerticalBar().setValues(scroll.position(top), 0, Math.max(1, scroll.maximum()), Math.max(1, scroll.thumb()), 1, Math.max(1, page() - 1));
    }

    private void scrolled(Event event) {
        switch (event.detail) {
            case SWT.ARROW_UP -> top(top - 1);
            case SWT.ARROW_DOWN -> top(top + 1);
            case SWT.PAGE_UP -> top(top - Math.max(1, page() - 1));
            case SWT.PAGE_DOWN -> top(top + Math.max(1, page() - 1));
            default -> top(scroll().top(getVerticalBar().getSelection()));
        }
    }

    private void key(Event event) {
        if (pair == null || pair.length() == 0) {
            return;
        }
        long columns = layout.columns();
        boolean whole = (event.stateMask & SWT.MOD1) != 0;
        switch (event.keyCode) {
            case SWT.ARROW_LEFT -> caret(caret - 1);
            case SWT.ARROW_RIGHT -> caret(caret + 1);
            case SWT.ARROW_UP -> caret(caret - columns);
            case SWT.ARROW_DOWN -> caret(caret + columns);
            case SWT.PAGE_UP -> caret(caret - columns * page());
            case SWT.PAGE_DOWN -> caret(caret + columns * page());
            case SWT.HOME -> caret(whole ? 0 : caret - caret % columns);
            case SWT.END -> caret(whole ? pair.length() - 1 : caret - caret % columns + columns - 1);
            default -> {
                return;
            }
        }
        event.doit = false;
    }

    private void down(Event event) {
        setFocus();
        long row = top + Math.floorDiv(event.y - layout.header(), layout.line());
        if (pair != null && pair.length() > 0 && event.y >= layout.header()) {
            caret(row * layout.columns() + layout.columnAt(event.x));
        }
    }

    private void paint(Event event) {
        TwinPainter painter = new TwinPainter(event.gc, layout);
        if (pair == null) {
            painter.nothing(getClientArea());
            return;
        }
        painter.ground(getClientArea(), pair);
        event.gc.setFont(JFaceResources.getTextFont());
        long offset = top * layout.columns();
        int rows = page() + 1;
        int count = (int) Math.max(0, Math.min((long) rows * layout.columns(), pair.length() - offset));
        if (count == 0) {
            return;
        }
        Twin twin = twin(offset, count);
        for (int from = 0; from < count; from += layout.columns()) {
            int y = layout.header() + from / layout.columns() * layout.line();
            painter.row(y, offset + from, from, Math.min(layout.columns(), count - from), twin, pair, caret);
        }
    }
}
