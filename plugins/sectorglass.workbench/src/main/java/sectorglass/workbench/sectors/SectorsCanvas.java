package sectorglass.workbench.sectors;

import java.util.ArrayList;
import java.util.List;
import java.util.function.LongConsumer;

import org.eclipse.swt.SWT;
import org.eclipse.swt.graphics.GC;
import org.eclipse.swt.graphics.Rectangle;
import org.eclipse.swt.widgets.Canvas;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Event;
import org.eclipse.swt.widgets.ScrollBar;

import sectorglass.decode.FieldNode;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.workbench.look.Size;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.DeskListener;
import sectorglass.workbench.model.Span;
import sectorglass.workbench.pages.Known;
import sectorglass.workbench.places.Clusters;
import sectorglass.workbench.places.PlaceLabels;

/** The bytes of the open disk and their gloss. Keyboard: see the card of keys in the help. */
public final class SectorsCanvas extends Canvas {
    /** Under this name a control tells which part it is the face of. */
    private static final String PART = "sectorglass.part";
    /** Bytes beyond the rows that are read, so that a character at the end of a row is whole. */
    private static final int AFTER = 4;
    /** Milliseconds that bytes are waited for before their cells are painted as coming. */
    private static final int PATIENCE = 8;

    private final Desk desk;
    private final SectorsFonts fonts;
    private Shown shown = Shown.DEFAULT;
    private PlaceLabels labels;
    private Clusters.Finder clusters;
    private long top;
    /** Bytes per row now: fewer than chosen where the projector size leaves no room for them. */
    private int fitting = Shown.DEFAULT.columns();
    private List<Row> rows = List.of();
    private RowLayout layout;
    private int header;
    private boolean stale = true;
    private long anchor = -1;
    private LongConsumer painted = nanos -> { };
    private Runnable copy = () -> { };

    /** A canvas that shows what lies on the desk. */
    public SectorsCanvas(Composite parent, Desk desk) {
        super(parent, SWT.V_SCROLL | SWT.DOUBLE_BUFFERED | SWT.NO_BACKGROUND);
        this.desk = desk;
        fonts = new SectorsFonts(this, this::refresh, () -> {
            refresh();
            reveal(desk.caret());
        });
        DeskListener listener = new SectorsListener(this, desk);
        desk.add(listener);
        addListener(SWT.Dispose, event -> desk.remove(listener));
        setData(PART, "sectors");
        addListener(SWT.Paint, this::paint);
        addListener(SWT.Resize, event -> refresh());
        addListener(SWT.FocusIn, event -> redraw());
        addListener(SWT.FocusOut, event -> redraw());
        addListener(SWT.MouseVerticalWheel, this::wheel);
        getVerticalBar().addListener(SWT.Selection, this::scrolled);
        new SectorsKeys(this, desk, () -> copy.run());
        new SectorsMouse(this, desk);
        getAccessible().addAccessibleListener(new SectorsAccess(desk));
    }

    /** Another disk lies on the desk. */
    void another() {
        top = 0;
        anchor = -1;
        labels = null;
        clusters = null;
        refresh();
    }

    /** What is shown now. */
    public Shown shown() {
        return shown;
    }

    /** Shows otherwise; the row with the caret stays in view. */
    public void show(Shown changed) {
        long address = top * columns();
        shown = changed;
        stale = true;
        layoutMetrics();
        top = address / columns();
        refresh();
        reveal(desk.caret());
    }

    /** Sets how much gloss there is. */
    public void density(Density changed) {
        show(shown.with(changed));
    }

    /** Sets the bytes per row, 8 to 64. */
    public void columns(int changed) {
        show(shown.withColumns(changed));
    }

    /** Bytes per row. */
    public int columns() {
        return fitting;
    }

    /** How bytes are shown as text. */
    public TextColumn text() {
        return shown.text();
    }

    /** Sets what the copy key does. */
    public void onCopy(Runnable does) {
        copy = does;
    }

    /** Hears how long each paint took, in nanoseconds. */
    public void onPaint(LongConsumer hears) {
        painted = hears;
    }

    /** Index of the first row seen. */
    public long top() {
        return top;
    }

    /** Scrolls so that a row is the first one seen; clamped. */
    public void top(long row) {
        long clamped = Math.max(0, Math.min(row, scroll().last()));
        if (clamped != top) {
            top = clamped;
            refresh();
        }
    }

    /** Rows wholly seen now, at least 1. */
    int fullRows() {
        layOut();
        int bottom = getClientArea().height;
        return (int) Math.max(1, rows.stream().filter(row -> row.y() + row.height() <= bottom).count());
    }

    /** Image byte at a place of the canvas, or -1 above the rows. */
    long addressAt(int x, int y) {
        layOut();
        Row found = null;
        for (Row row : rows) {
            if (y >= row.y()) {
                found = row;
            }
        }
        if (found == null || y < header) {
            return -1;
        }
        return found.address() + Math.min(layout.grid().columnAt(x), found.count() - 1);
    }

    /** The field whose bracket or label lies at a place of the canvas, or null. */
    Span labelAt(int x, int y) {
        layOut();
        for (Row row : rows) {
            if (y < row.y() + layout.line() || y >= row.y() + row.height() || row.placed() == null) {
                continue;
            }
            int line = (y - row.y() - layout.line() - layout.bracket()) / layout.small();
            for (int i = 0; i < row.named().size(); i++) {
                int left = layout.labelX(row.named().get(i), row.address());
                if (row.placed().line()[i] == line && x >= left && x < left + row.placed().width()[i]) {
                    return row.named().get(i);
                }
            }
        }
        return null;
    }

    /** Brings an image byte into view; if it is out of view, with two rows above it. */
    public void reveal(long address) {
        SectorImage image = image();
        if (image == null) {
            return;
        }
        int full = fullRows(); // lays out: only then it is known how many bytes a row has
        long row = address / columns();
        if (row >= top && row < top + full) {
            return;
        }
        boolean near = row < top && row >= top - 2 || row >= top + full && row < top + full + 2;
        // from afar: the place stands at the top, with a row before it unless a sector begins there
        long above = address % image.sectorSize() < columns() ? 0 : 1;
        long wanted = near ? row < top ? row : row - full + 1 : row - above;
        top = Math.max(0, Math.min(wanted, scroll().last()));
        refresh();
        // rows have different heights: walk down until the row is wholly seen
        while (row >= top + fullRows() && top < row) {
            top++;
            refresh();
        }
    }

    /** Whether the anchor of a selection is set, and where: -1 for none. */
    long anchor() {
        return anchor;
    }

    void anchor(long address) {
        anchor = address;
    }

    private SectorImage image() {
        return desk.open() == null ? null : desk.open().image();
    }

    private long rowCount() {
        SectorImage image = image();
        return image == null ? 1 : Math.max(1, (image.bytes() + columns() - 1) / columns());
    }

    private Scroll scroll() {
        layoutMetrics();
        return new Scroll(rowCount(), Math.max(1, (getClientArea().height - header) / layout.tallest()));
    }

    /** Lays out and paints again. */
    public void refresh() {
        if (!isDisposed()) {
            stale = true;
            redraw();
        }
    }

    private void layoutMetrics() {
        if (layout != null && !stale) {
            return;
        }
        GC gc = new GC(this);
        try {
            gc.setFont(fonts.bytes());
            double advance = gc.stringExtent("0".repeat(100)).x / 100.0;
            int line = gc.getFontMetrics().getHeight() + 3;
            gc.setFont(fonts.gloss());
            int small = gc.getFontMetrics().getHeight() + 1;
            labels = desk.open() == null ? null : new PlaceLabels(desk.open(), shown.offsets(), shown.hex());
            int label = (int) Math.ceil((labels == null ? 11 : labels.longest()) * advance) + 16;
            fit(advance, label);
            layout = new RowLayout(new Grid(columns(), advance, label), shown.density(), line, shown.density() == Density.MARKED ? 5 : 7, small,
                    Math.min(16, small), getClientArea().width - 4);
            header = line + 4;
        } finally {
            gc.dispose();
        }
    }

    /** Takes as many bytes per row as were chosen; in the projector size no more than there is room for, so that none is cut off. */
    private void fit(double advance, int label) {
        int columns = shown.columns();
        while (Size.large() && columns > 8 && new Grid(columns, advance, label).right() > getClientArea().width) {
            columns = Math.max(8, columns - 8);
        }
        if (columns != fitting) {
            top = top * fitting / columns;
            fitting = columns;
        }
    }

    private void layOut() {
        if (!stale && layout != null) {
            return;
        }
        layoutMetrics();
        stale = false;
        SectorImage image = image();
        if (image == null || image.bytes() == 0) {
            rows = List.of();
            return;
        }
        int height = getClientArea().height;
        int most = Math.max(1, (height - header) / layout.line() + 1);
        long start = top * columns();
        long end = Math.min(image.bytes(), start + (long) most * columns());
        List<Span> spans = shown.density() == Density.BYTES || end <= start ? List.of()
                : desk.gloss().in(new ByteRange(start, end - start)).stream().map(span -> desk.cover().hides(span.node()) ? span.unjudged() : span).toList();
        List<Row> found = new ArrayList<>();
        GC gc = new GC(this);
        try {
            gc.setFont(fonts.gloss());
            int y = header;
            for (long at = start; at < end && y < height; at += columns()) {
                Row row = layout.row(at, (int) Math.min(columns(), end - at), y, spans, at == start, this::label, label -> fonts.width(gc, label));
                found.add(row);
                y += row.height();
            }
        } finally {
            gc.dispose();
        }
        rows = found;
        updateBar();
    }

    private Label label(Span span) {
        return desk.cover().hides(span.node()) ? Label.COVERED : Label.of(span, !desk.exam().runs());
    }

    private void updateBar() {
        Scroll scroll = new Scroll(rowCount(), Math.max(1, (getClientArea().height - header) / layout.tallest()));
        ScrollBar bar = getVerticalBar();
        int page = Math.max(1, rows.size() - 1);
        bar.setValues(scroll.position(top), 0, Math.max(1, scroll.maximum()), Math.max(1, scroll.thumb()), 1, page);
        bar.setVisible(true);
    }

    private void scrolled(Event event) {
        switch (event.detail) {
            case SWT.ARROW_UP -> top(top - 1);
            case SWT.ARROW_DOWN -> top(top + 1);
            case SWT.PAGE_UP -> top(top - Math.max(1, fullRows() - 1));
            case SWT.PAGE_DOWN -> top(top + Math.max(1, fullRows() - 1));
            case SWT.HOME -> top(0);
            case SWT.END -> top(Long.MAX_VALUE);
            default -> top(scroll().top(getVerticalBar().getSelection()));
        }
        updateBar();
    }

    private void wheel(Event event) {
        if ((event.stateMask & SWT.MOD1) == 0 && image() != null) {
            top(top - Math.max(-60, Math.min(60, event.count)));
            event.doit = false;
        }
    }

    private void paint(Event event) {
        long began = System.nanoTime();
        Rectangle area = getClientArea();
        layOut();
        SectorImage image = image();
        FieldNode field = desk.field();
        ByteRange fieldBytes = field == null || field.length() <= 0 ? null : new ByteRange(field.firstByte(), field.length());
        if (clusters == null && image != null) {
            clusters = new Clusters.Finder(desk.open().disk());
        }
        View view = new View(image, desk.caret(), desk.selection(), fieldBytes, isFocusControl(), labels, clusters,
                rows.isEmpty() ? List.of() : desk.marks().in(new ByteRange(rows.get(0).address(), rows.get(rows.size() - 1).end() - rows.get(0).address())));
        Known known = Known.NOTHING;
        if (!rows.isEmpty()) {
            long start = rows.get(0).address();
            known = desk.pages().soon(start, (int) (rows.get(rows.size() - 1).end() + AFTER - start), PATIENCE);
        }
        new SectorsPainter(layout, fonts.bytes(), fonts.gloss(), fonts.widths(), shown.text()).paint(event.gc, area, header, rows, view, known);
        painted.accept(System.nanoTime() - began);
    }

    /** Names and values that stand under the brackets in view, for tests and for tools that read aloud. */
    public List<String> labels() {
        layOut();
        return rows.stream().flatMap(row -> row.labels().stream()).map(label -> (label.name() + " " + label.value() + " " + label.wrong()).strip()).toList();
    }

    /** Where a byte is painted, for tests and for tools that point: the cell in canvas coordinates, or null where it is not in view. */
    public Rectangle cell(long address) {
        layOut();
        for (Row row : rows) {
            if (address >= row.address() && address < row.end()) {
                int column = (int) (address - row.address());
                int x = (int) Math.floor(layout.grid().x(column));
                return new Rectangle(x, row.y() + 1, (int) Math.ceil(2 * layout.grid().advance()), layout.line());
            }
        }
        return null;
    }
}
