package sectorglass.workbench.recovery.drawing;

import java.util.List;
import java.util.function.Consumer;
import java.util.function.ToLongFunction;

import org.eclipse.swt.SWT;
import org.eclipse.swt.accessibility.AccessibleAdapter;
import org.eclipse.swt.accessibility.AccessibleEvent;
import org.eclipse.swt.graphics.GC;
import org.eclipse.swt.graphics.Rectangle;
import org.eclipse.swt.widgets.Canvas;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.ScrollBar;

import sectorglass.disk.FileState;
import sectorglass.recovery.outcome.Totals;
import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Look;
import sectorglass.workbench.look.Tone;

/** A bar for each share with its words above; only what is seen is drawn. Arrows choose, Enter goes to the files, right and left go into a folder and out. */
final class BarsCanvas extends Canvas {
    private static final int BAR = 16;
    private static final int GAP = 8;
    private static final int EDGE = 6;
    /** So narrow is no stretch that stands for files: it would not be seen. */
    private static final int LEAST = 3;

    private final Consumer<Share> wanted;
    private final Consumer<Share> entered;
    private final Runnable left;
    private List<Share> shares = List.of();
    private boolean bytes = true;
    private int chosen;
    private int line;
    /** The largest measure of all; bars are drawn to its scale. */
    private long most;

    /**
     * Builds it.
     *
     * @param wanted hears whose files are wanted
     * @param entered hears which folder shall be drawn in turn
     * @param left hears that the folder above shall be drawn
     */
    BarsCanvas(Composite parent, Consumer<Share> wanted, Consumer<Share> entered, Runnable left) {
        super(parent, SWT.DOUBLE_BUFFERED | SWT.V_SCROLL | SWT.BORDER);
        this.wanted = wanted;
        this.entered = entered;
        this.left = left;
        getAccessible().addAccessibleListener(new AccessibleAdapter() {
            @Override
            public void getName(AccessibleEvent e) {
                e.result = chosen() == null ? "" : chosen().name() + ": " + chosen().words();
            }
        });
        addListener(SWT.Paint, event -> paint(event.gc));
        addListener(SWT.Resize, event -> scroll());
        addListener(SWT.KeyDown, this::key);
        addListener(SWT.Traverse, event -> event.doit = event.detail != SWT.TRAVERSE_RETURN);
        addListener(SWT.FocusIn, event -> redraw());
        addListener(SWT.FocusOut, event -> redraw());
        addListener(SWT.MouseDown, event -> {
            setFocus();
            int row = (event.y + getVerticalBar().getSelection()) / height();
            if (event.button == 1 && row < shares.size()) {
                choose(row);
            }
        });
        addListener(SWT.MouseUp, event -> {
            int row = (event.y + getVerticalBar().getSelection()) / height();
            if (event.button == 1 && row == chosen && chosen() != null) {
                wanted.accept(chosen());
            }
        });
        addListener(SWT.MouseVerticalWheel, event -> {
            getVerticalBar().setSelection(getVerticalBar().getSelection() - event.count * height() / 2);
            redraw();
        });
        getVerticalBar().addListener(SWT.Selection, event -> redraw());
        Look.follow(this, this::redraw);
    }

    /** Shows other shares; by their bytes or by how many files they are. */
    void show(List<Share> shown, boolean byBytes) {
        shares = shown;
        bytes = byBytes;
        most = shares.stream().mapToLong(share -> measure(share.totals())).max().orElse(0);
        chosen = 0;
        getVerticalBar().setSelection(0);
        scroll();
        redraw();
    }

    /** What is shown. */
    List<Share> shares() {
        return shares;
    }

    /** The chosen share, or null. */
    Share chosen() {
        return chosen < shares.size() ? shares.get(chosen) : null;
    }

    /** Chooses a share by its place. */
    void choose(int row) {
        if (shares.isEmpty()) {
            return;
        }
        chosen = Math.max(0, Math.min(shares.size() - 1, row));
        ScrollBar bar = getVerticalBar();
        int top = chosen * height();
        if (top < bar.getSelection()) {
            bar.setSelection(top);
        } else if (top + height() > bar.getSelection() + getClientArea().height) {
            bar.setSelection(top + height() - getClientArea().height);
        }
        redraw();
    }

    private void key(Event event) {
        int page = Math.max(1, getClientArea().height / height());
        switch (event.keyCode) {
            case SWT.ARROW_DOWN -> choose(chosen + 1);
            case SWT.ARROW_UP -> choose(chosen - 1);
            case SWT.PAGE_DOWN -> choose(chosen + page);
            case SWT.PAGE_UP -> choose(chosen - page);
            case SWT.HOME -> choose(0);
            case SWT.END -> choose(shares.size() - 1);
            case SWT.ARROW_LEFT, SWT.BS -> left.run();
            case SWT.ARROW_RIGHT -> {
                if (chosen() != null && chosen().opens()) {
                    entered.accept(chosen());
                }
            }
            case SWT.CR, SWT.KEYPAD_CR, SWT.SPACE -> {
                if (chosen() != null) {
                    wanted.accept(chosen());
                }
            }
            default -> { }
        }
    }

    private int height() {
        if (line == 0) {
            GC gc = new GC(this);
            line = gc.getFontMetrics().getHeight();
            gc.dispose();
        }
        return line + BAR + GAP;
    }

    private void scroll() {
        int all = shares.size() * height() + EDGE;
        int seen = Math.max(1, getClientArea().height);
        getVerticalBar().setValues(Math.max(0, Math.min(getVerticalBar().getSelection(), all - seen)), 0, Math.max(all, seen), Math.min(seen, Math.max(all, seen)), height(), seen);
        getVerticalBar().setVisible(all > seen);
    }

    private void paint(GC gc) {
        Rectangle area = getClientArea();
        gc.setBackground(Ink.of(Tone.PAGE));
        gc.fillRectangle(area);
        int top = getVerticalBar().getSelection();
        for (int row = Math.max(0, top / height()); row < shares.size() && row * height() < top + area.height; row++) {
            row(gc, shares.get(row), row * height() - top + EDGE / 2, area.width, row == chosen);
        }
    }

    private long measure(Totals totals) {
        return bytes ? totals.bytes() : totals.files();
    }

    private void row(GC gc, Share share, int y, int width, boolean isChosen) {
        if (isChosen) {
            gc.setBackground(Ink.of(Tone.SELECTED));
            gc.fillRectangle(0, y - EDGE / 2, width, height());
            gc.setForeground(Ink.of(Tone.INK));
            if (isFocusControl()) {
                gc.setLineStyle(SWT.LINE_DOT);
                gc.drawRectangle(1, y - EDGE / 2, width - 3, height() - 1);
                gc.setLineStyle(SWT.LINE_SOLID);
            }
        }
        gc.setForeground(Ink.of(Tone.INK));
        gc.drawText(fit(gc, share.name(), width / 3), EDGE, y, true);
        gc.drawText(share.words(), EDGE + width / 3 + 12, y, true);
        int whole = most == 0 ? 0 : (int) ((width - 2 * EDGE) * (double) measure(share.totals()) / most);
        int x = EDGE;
        for (Texture texture : Texture.values()) {
            long part = sum(texture, bytes ? state -> share.totals().bytes(state) : state -> share.totals().files(state));
            long files = sum(texture, state -> share.totals().files(state));
            if (files > 0) {
                int wide = Math.max(LEAST, (int) (whole * (double) part / Math.max(1, measure(share.totals()))));
                texture.fill(gc, x, y + line + 1, wide, BAR);
                x += wide;
            }
        }
    }

    private static String fit(GC gc, String text, int width) {
        String shown = text;
        for (int length = Math.min(text.length(), 400); gc.textExtent(shown).x > width && length > 1; length--) {
            shown = text.substring(0, length) + "\u2026";
        }
        return shown;
    }

    private static long sum(Texture texture, ToLongFunction<FileState> of) {
        return texture.states().stream().mapToLong(of).sum();
    }
}
