package sectorglass.workbench.recovery.plan;

import java.util.function.BiConsumer;

import org.eclipse.swt.SWT;
import org.eclipse.swt.accessibility.AccessibleAdapter;
import org.eclipse.swt.accessibility.AccessibleEvent;
import org.eclipse.swt.graphics.GC;
import org.eclipse.swt.graphics.Point;
import org.eclipse.swt.graphics.Rectangle;
import org.eclipse.swt.widgets.Canvas;
import org.eclipse.swt.widgets.Composite;

import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.recovery.HeadZones;
import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Tone;
import sectorglass.workbench.recovery.Words;

/** The disk once for each head, to scale; dragging along a lane gives the sectors passed over to its head. */
final class ZonesCanvas extends Canvas {
    private static final int LANE = 18;
    private static final int TOP = 4;

    private final long sectors;
    private final BiConsumer<Integer, SectorRange> drawn;
    private HeadZones zones = HeadZones.NONE;
    private int heads = 2;
    private int names;
    private int lane = -1;
    private int from;
    private int to;

    /** @param drawn hears which head was given which sectors */
    ZonesCanvas(Composite parent, long sectors, BiConsumer<Integer, SectorRange> drawn) {
        super(parent, SWT.DOUBLE_BUFFERED | SWT.BORDER);
        this.sectors = Math.max(1, sectors);
        this.drawn = drawn;
        getAccessible().addAccessibleListener(new AccessibleAdapter() {
            @Override
            public void getName(AccessibleEvent e) {
                e.result = Words.of("heads.drawing");
            }
        });
        setToolTipText(Words.of("heads.drawing"));
        addListener(SWT.Paint, event -> paint(event.gc));
        addListener(SWT.MouseDown, event -> {
            lane = event.button == 1 && event.x >= left() ? laneAt(event.y) : -1;
            from = event.x;
            to = event.x;
            redraw();
        });
        addListener(SWT.MouseMove, event -> {
            if (lane >= 0) {
                to = event.x;
                redraw();
            }
        });
        addListener(SWT.MouseUp, event -> {
            if (lane >= 0 && Math.abs(event.x - from) > 1) {
                long first = lba(Math.min(from, event.x));
                long end = lba(Math.max(from, event.x) + 1);
                drawn.accept(lane, new SectorRange(first, Math.max(1, end - first)));
            }
            lane = -1;
            redraw();
        });
    }

    void show(HeadZones shown, int lanes) {
        zones = shown;
        heads = lanes;
        redraw();
    }

    @Override
    public Point computeSize(int width, int height, boolean changed) {
        return new Point(width == SWT.DEFAULT ? 520 : width, TOP * 2 + LANE * heads + LANE + 4);
    }

    private int left() {
        if (names == 0) {
            GC gc = new GC(this);
            names = gc.textExtent(Words.of("heads.head", 15)).x + 12;
            gc.dispose();
        }
        return names;
    }

    private int laneAt(int y) {
        int at = (y - TOP) / LANE;
        return y < TOP || at >= heads ? -1 : at;
    }

    private int x(long lba) {
        int left = left();
        return left + (int) ((getClientArea().width - left - 4) * (double) lba / sectors);
    }

    private long lba(int x) {
        int left = left();
        double share = (x - left) / (double) Math.max(1, getClientArea().width - left - 4);
        return Math.max(0, Math.min(sectors, (long) (share * sectors)));
    }

    private void paint(GC gc) {
        Rectangle area = getClientArea();
        gc.setBackground(Ink.of(Tone.PAGE));
        gc.fillRectangle(area);
        int right = x(sectors);
        for (int head = 0; head < heads; head++) {
            int y = TOP + head * LANE;
            gc.setForeground(Ink.of(Tone.INK));
            gc.drawText(Words.of("heads.head", head), 4, y + (LANE - gc.getFontMetrics().getHeight()) / 2, true);
            gc.setForeground(Ink.of(Tone.RULE));
            gc.drawLine(x(0), y + LANE - 2, right, y + LANE - 2);
            zones(gc, zones.zones().getOrDefault(head, SectorRanges.EMPTY), y, right);
            if (head == lane) {
                bar(gc, Math.min(from, to), Math.max(from, to), y);
            }
        }
        int y = TOP + heads * LANE + 2;
        gc.setForeground(Ink.of(Tone.INK));
        gc.drawText("LBA 0", x(0), y, true);
        String end = lane < 0 ? Numbers.grouped(sectors - 1) : Numbers.grouped(lba(Math.min(from, to))) + " \u2013 " + Numbers.grouped(lba(Math.max(from, to)));
        gc.drawText(end, right - gc.textExtent(end).x, y, true);
    }

    /** Column by column, not zone by zone: a drive may have a million of them. */
    private void zones(GC gc, SectorRanges ranges, int y, int right) {
        int start = -1;
        for (int x = x(0); x <= right; x++) {
            long first = lba(x);
            boolean on = x < right && ranges.intersects(new SectorRange(first, Math.max(1, lba(x + 1) - first)));
            if (on && start < 0) {
                start = x;
            } else if (!on && start >= 0) {
                bar(gc, start, x, y);
                start = -1;
            }
        }
    }

    private static void bar(GC gc, int start, int end, int y) {
        gc.setForeground(Ink.of(Tone.OUTLINE));
        gc.setBackground(Ink.of(Tone.FIELD));
        gc.fillRectangle(start, y + 2, Math.max(2, end - start), LANE - 6);
        gc.drawRectangle(start, y + 2, Math.max(1, end - start - 1), LANE - 7);
    }
}
