package sectorglass.workbench.recovery.search;

import org.eclipse.swt.SWT;
import org.eclipse.swt.accessibility.AccessibleAdapter;
import org.eclipse.swt.accessibility.AccessibleEvent;
import org.eclipse.swt.graphics.GC;
import org.eclipse.swt.graphics.Rectangle;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.widgets.Canvas;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Event;

import sectorglass.recovery.ContentLook;
import sectorglass.recovery.SearchTexts;
import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Tone;
import sectorglass.workbench.recovery.Words;

/** Entropy along the disk: a bar for each piece, hatched where the sample was not read; hidden until there is something to show. */
final class EntropyCanvas extends Canvas {
    private static final int HEIGHT = 44;
    private static final double MOST_BITS = 8;

    private final SearchTexts texts;
    private ContentLook look;

    EntropyCanvas(Composite parent, SearchTexts texts, FoundTree.Place place) {
        super(parent, SWT.DOUBLE_BUFFERED | SWT.NO_BACKGROUND);
        this.texts = texts;
        GridData data = new GridData(SWT.FILL, SWT.BEGINNING, true, false);
        data.heightHint = HEIGHT;
        data.exclude = true;
        setLayoutData(data);
        setVisible(false);
        addListener(SWT.Paint, this::paint);
        addListener(SWT.Resize, event -> redraw());
        addListener(SWT.MouseDown, event -> {
            ContentLook.Piece piece = at(event.x);
            if (piece != null) {
                place.at(piece.firstByte(), 512);
            }
        });
        addListener(SWT.MouseHover, event -> {
            ContentLook.Piece piece = at(event.x);
            setToolTipText(piece == null ? null : Words.of("search.entropy.tip", texts.of("looks." + piece.looks().word()),
                    piece.entropy() < 0 ? "–" : String.valueOf(piece.entropy())));
        });
        getAccessible().addAccessibleListener(new AccessibleAdapter() {
            @Override
            public void getName(AccessibleEvent e) {
                e.result = Words.of("search.entropy");
            }
        });
    }

    void show(ContentLook shown) {
        look = shown;
        ((GridData) getLayoutData()).exclude = shown == null;
        setVisible(shown != null);
        getParent().layout();
        redraw();
    }

    private ContentLook.Piece at(int x) {
        int width = getClientArea().width;
        if (look == null || width == 0 || look.strip().isEmpty()) {
            return null;
        }
        int index = (int) ((long) x * look.strip().size() / width);
        return look.strip().get(Math.max(0, Math.min(look.strip().size() - 1, index)));
    }

    private void paint(Event event) {
        GC gc = event.gc;
        Rectangle area = getClientArea();
        gc.setBackground(Ink.of(Tone.PAGE));
        gc.fillRectangle(area);
        if (look == null) {
            return;
        }
        int line = gc.getFontMetrics().getHeight();
        int bottom = area.height - 1;
        int room = bottom - line - 2;
        for (int x = 0; x < area.width; x++) {
            ContentLook.Piece piece = at(x);
            if (piece.entropy() < 0) {
                gc.setForeground(Ink.of(x % 4 < 2 ? Tone.UNREAD : Tone.RULE));
                gc.drawLine(x, bottom - 5, x, bottom);
            } else {
                gc.setForeground(Ink.of(piece.looks() == ContentLook.Looks.RANDOM ? Tone.BRACKET : Tone.BRACKET_NEXT));
                gc.drawLine(x, bottom - (int) (piece.entropy() / MOST_BITS * room), x, bottom);
            }
        }
        gc.setForeground(Ink.of(Tone.QUIET));
        gc.drawText(Words.of("search.entropy"), 2, 0, true);
        gc.setForeground(Ink.of(Tone.RULE));
        gc.drawLine(0, bottom - room, area.width, bottom - room);
    }
}
