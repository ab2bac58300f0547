package sectorglass.workbench.strip;

import java.util.List;

import org.eclipse.swt.SWT;
import org.eclipse.swt.accessibility.AccessibleAdapter;
import org.eclipse.swt.accessibility.AccessibleEvent;
import org.eclipse.swt.graphics.GC;
import org.eclipse.swt.graphics.Rectangle;
import org.eclipse.swt.widgets.Canvas;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Event;

import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.recovery.Job;
import sectorglass.verify.Finding;
import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Sign;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.look.Tone;
import sectorglass.workbench.marks.Marks;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.DeskListener;
import sectorglass.workbench.model.OpenDisk;
import sectorglass.workbench.model.FoundRange;
import sectorglass.workbench.sectors.Hatch;

/** Draws the disk strip: wheel and + − zoom, arrow keys pan, a click goes there, a resting pointer explains. */
public final class StripCanvas extends Canvas {
    private static final int MARGIN = 8;
    private static final int LEAST_PARTITION = 104;
    private static final int LEAST_GAP = 5;
    private static final int SIGN = 11;
    private static final int PENNANT = 8;
    private static final int MARK = 6;

    private final Desk desk;
    private final DeskListener listener;
    private List<Piece> pieces = List.of();
    private long from;
    private long end;

    /** A strip of the disk on the desk. */
    public StripCanvas(Composite parent, Desk desk) {
        super(parent, SWT.DOUBLE_BUFFERED | SWT.NO_BACKGROUND);
        this.desk = desk;
        listener = new DeskListener() {
            @Override
            public void diskChanged() {
                OpenDisk open = desk.open();
                pieces = open == null ? List.of() : Pieces.of(open.disk());
                all();
            }

            @Override
            public void caretMoved() {
                redraw();
            }

            @Override
            public void findingsChanged() {
                redraw();
            }

            @Override
            public void marksChanged() {
                redraw();
            }

            @Override
            public void foundChanged() {
                redraw();
            }

            @Override
            public void markedChanged() {
                redraw();
            }
        };
        desk.add(listener);
        listener.diskChanged();
        addListener(SWT.Dispose, event -> desk.remove(listener));
        addListener(SWT.Paint, this::paint);
        addListener(SWT.Resize, event -> redraw());
        addListener(SWT.FocusIn, event -> redraw());
        addListener(SWT.FocusOut, event -> redraw());
        addListener(SWT.MouseDown, event -> {
            setFocus();
            if (desk.open() != null && event.button == 1) {
                desk.goTo(scale().lba(event.x - MARGIN) * desk.open().image().sectorSize(), Texts.of("by.strip"));
            }
        });
        addListener(SWT.MouseVerticalWheel, event -> {
            zoom(event.count > 0 ? 0.7 : 1 / 0.7, event.x - MARGIN);
            event.doit = false;
        });
        addListener(SWT.MouseHover, event -> setToolTipText(desk.open() == null ? null : StripTip.at(desk, scale(), event.x - MARGIN)));
        addListener(SWT.KeyDown, this::key);
        addListener(SWT.Traverse, event -> event.doit = event.detail == SWT.TRAVERSE_TAB_NEXT || event.detail == SWT.TRAVERSE_TAB_PREVIOUS);
        getAccessible().addAccessibleListener(new AccessibleAdapter() {
            @Override
            public void getName(AccessibleEvent e) {
                e.result = Texts.of("part.strip");
            }
        });
    }

    private void all() {
        from = 0;
        end = desk.open() == null ? 1 : Math.max(1, desk.open().image().sectors());
        redraw();
    }

    private void key(Event event) {
        if (desk.open() == null) {
            return;
        }
        long step = Math.max(1, (end - from) / 8);
        switch (event.keyCode) {
            case SWT.ARROW_LEFT -> pan(-step);
            case SWT.ARROW_RIGHT -> pan(step);
            case SWT.HOME -> all();
            case SWT.KEYPAD_ADD -> zoom(0.5, middle());
            case SWT.KEYPAD_SUBTRACT -> zoom(2, middle());
            default -> {
                if (event.character == '+') {
                    zoom(0.5, middle());
                } else if (event.character == '-') {
                    zoom(2, middle());
                }
            }
        }
    }

    private double middle() {
        return scale().x(desk.caret() / desk.open().image().sectorSize());
    }

    private void pan(long sectors) {
        long width = end - from;
        long all = desk.open().image().sectors();
        from = Math.max(0, Math.min(all - width, from + sectors));
        end = from + width;
        redraw();
    }

    private void zoom(double factor, double x) {
        if (desk.open() == null) {
            return;
        }
        long all = Math.max(1, desk.open().image().sectors());
        long at = scale().lba(x);
        long width = Math.max(Math.min(all, 16), Math.min(all, (long) ((end - from) * factor)));
        double share = Math.max(0, Math.min(1, x / Math.max(1, getClientArea().width - 2 * MARGIN)));
        from = Math.max(0, Math.min(all - width, at - (long) (share * width)));
        end = from + width;
        redraw();
    }

    private Scale scale() {
        return Scale.of(pieces, from, end, Math.max(1, getClientArea().width - 2 * MARGIN), LEAST_PARTITION, LEAST_GAP);
    }

    private void paint(Event event) {
        GC gc = event.gc;
        Rectangle area = getClientArea();
        gc.setBackground(Ink.of(Tone.PAGE));
        gc.fillRectangle(area);
        if (desk.open() == null) {
            gc.setForeground(Ink.of(Tone.QUIET));
            gc.drawText(Texts.of("strip.empty"), MARGIN + 2, 6, true);
            return;
        }
        Scale scale = scale();
        int line = gc.getFontMetrics().getHeight();
        int bottom = area.height - SIGN - 6;
        int top = 4;
        int state = Math.max(8, Math.min(12, (bottom - top) / 5));
        StripLabels labels = new StripLabels(gc, line);
        for (int i = 0; i < scale.pieces().size(); i++) {
            Piece piece = scale.pieces().get(i);
            int x = MARGIN + (int) Math.round(scale.left(i));
            int width = Math.max(1, MARGIN + (int) Math.round(scale.right(i)) - x);
            int height = bottom - top - state - 2;
            if (piece.partition() != null) {
                gc.setBackground(Ink.of(piece.number() % 2 == 0 ? Tone.PARTITION : Tone.PARTITION_NEXT));
                gc.fillRectangle(x, top, width - 1, height);
                gc.setForeground(Ink.of(Tone.OUTLINE));
                gc.drawRectangle(x, top, width - 2, height);
                labels.draw(piece, desk.open().image().sectorSize(), x + 5, top + 2, width - 9, height - 3);
            } else {
                gc.setForeground(Ink.of(Tone.RULE));
                gc.drawLine(x, top + height / 2, x + width - 2, top + height / 2);
            }
        }
        paintFound(gc, scale, top);
        paintMarked(gc, scale, bottom - state - 2 - MARK, MARK);
        paintStates(gc, scale, bottom - state, state);
        paintMarks(gc, scale, bottom - state - 2);
        paintFindings(gc, scale, bottom + 3);
        paintCaret(gc, scale, top, bottom);
        if (isFocusControl()) {
            gc.setForeground(Ink.of(Tone.CARET));
            gc.drawRectangle(0, 0, area.width - 1, area.height - 1);
        }
    }

    /** Brackets over what was found: whole lines for what is present, thin ones for what is left over. */
    private void paintFound(GC gc, Scale scale, int top) {
        for (FoundRange mark : desk.found()) {
            if (mark.sectors().end() <= from || mark.sectors().first() >= end) {
                continue;
            }
            int x = MARGIN + (int) Math.floor(scale.x(Math.max(from, mark.sectors().first())));
            int right = Math.max(x + 3, MARGIN + (int) Math.ceil(scale.x(Math.min(end, mark.sectors().end()))) - 1);
            gc.setBackground(Ink.of(mark.present() ? Tone.BRACKET : Tone.QUIET));
            gc.fillRectangle(x, 0, right - x, mark.present() ? 3 : 1);
            gc.fillRectangle(x, 0, 2, top + 5);
            gc.fillRectangle(right - 2, 0, 2, top + 5);
        }
    }

    /** The sectors of a file, along the foot of the partitions: filled, with an outline, so that colour does not carry it alone. */
    private void paintMarked(GC gc, Scale scale, int y, int height) {
        int until = -1;
        gc.setBackground(Ink.of(Tone.LINK));
        gc.setForeground(Ink.of(Tone.OUTLINE));
        for (SectorRange run : desk.marked().sectors().intersect(new SectorRange(from, end - from))) {
            int x = Math.max(until, MARGIN + (int) Math.floor(scale.x(run.first())));
            int right = MARGIN + (int) Math.ceil(scale.x(run.end()));
            if (right > until) {
                int width = Math.max(4, right - x);
                gc.fillRectangle(x, y, width, height);
                gc.drawRectangle(x, y, width - 1, height - 1);
                until = x + width;
            }
        }
    }

    private void paintStates(GC gc, Scale scale, int y, int height) {
        SectorImage image = desk.open().image();
        gc.setForeground(Ink.of(Tone.RULE));
        gc.drawLine(MARGIN, y + height - 1, MARGIN + (int) scale.x(end), y + height - 1);
        SectorRange seen = new SectorRange(from, end - from);
        for (ReadState state : new ReadState[] {ReadState.UNREAD, ReadState.SKIPPED, ReadState.FAILED}) {
            int until = -1;
            for (SectorRange run : image.inState(state, seen)) {
                int x = MARGIN + (int) Math.floor(scale.x(run.first()));
                int right = MARGIN + (int) Math.ceil(scale.x(run.end()));
                if (right <= until) {
                    continue;
                }
                Hatch.fill(gc, state, Math.max(x, until), y, Math.max(3, right - Math.max(x, until)), height);
                until = Math.max(right, x + 3);
            }
        }
    }

    private void paintFindings(GC gc, Scale scale, int y) {
        int size = desk.open().image().sectorSize();
        boolean[] taken = new boolean[getClientArea().width / SIGN + 2];
        for (Sign sign : Sign.values()) {
            for (Finding finding : desk.open().listed()) {
                long lba = finding.where().start() / size;
                if (Sign.of(finding) != sign || lba < from || lba >= end) {
                    continue;
                }
                int slot = (int) (scale.x(lba) / SIGN);
                if (slot < taken.length && !taken[slot]) {
                    taken[slot] = true;
                    sign.draw(gc, MARGIN + slot * SIGN, y, SIGN - 1);
                }
            }
        }
    }

    /** A pennant where a mark begins. */
    private void paintMarks(GC gc, Scale scale, int foot) {
        int size = desk.open().image().sectorSize();
        int before = -PENNANT;
        for (Job.Mark mark : desk.marks().all()) {
            long lba = mark.firstByte() / size;
            int x = MARGIN + (int) Math.round(scale.x(lba));
            if (Marks.bytes(mark) == null || lba < from || lba >= end || x < before + PENNANT / 2) {
                continue;
            }
            before = x;
            gc.setBackground(Ink.of(Tone.MARKED));
            gc.setForeground(Ink.of(Tone.MARK));
            int[] flag = {x, foot - 2 * PENNANT, x + PENNANT, foot - 2 * PENNANT + PENNANT / 2, x, foot - PENNANT};
            gc.fillPolygon(flag);
            gc.drawPolygon(flag);
            gc.drawLine(x, foot - 2 * PENNANT, x, foot);
        }
    }

    private void paintCaret(GC gc, Scale scale, int top, int bottom) {
        long lba = desk.caret() / desk.open().image().sectorSize();
        if (lba < from || lba >= end) {
            return;
        }
        int x = MARGIN + (int) Math.round(scale.x(lba));
        gc.setForeground(Ink.of(Tone.CARET));
        gc.setBackground(Ink.of(Tone.CARET));
        gc.setLineWidth(2);
        gc.drawLine(x, top - 2, x, bottom);
        gc.setLineWidth(1);
        gc.fillPolygon(new int[] {x - 5, 0, x + 5, 0, x, 6});
    }
}
