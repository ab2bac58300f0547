package sectorglass.workbench.strip;

import org.eclipse.swt.graphics.GC;

import sectorglass.disk.Partition;
import sectorglass.image.SafeText;
import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Tone;

/** Writes what a partition is into its box, as much as fits. */
final class StripLabels {
    private final GC gc;
    private final int line;

    StripLabels(GC gc, int line) {
        this.gc = gc;
        this.line = line;
    }

    void draw(Piece piece, int sectorSize, int x, int y, int width, int height) {
        Partition partition = piece.partition();
        String name = name(partition);
        String size = Numbers.size(partition.range().count() * sectorSize);
        gc.setForeground(Ink.of(Tone.INK));
        int at = y;
        for (String words : new String[] {name, size}) {
            if (at + line > y + height) {
                return;
            }
            String shown = fit(words, width);
            if (shown.isEmpty()) {
                return;
            }
            gc.drawText(shown, x, at, org.eclipse.swt.SWT.DRAW_TRANSPARENT);
            at += line;
        }
    }

    static String name(Partition partition) {
        String kind = partition.volume() != null ? partition.volume().info().kind()
                : partition.entry().typeName() != null ? partition.entry().typeName() : partition.entry().type();
        String label = partition.volume() != null && partition.volume().info().label() != null ? partition.volume().info().label()
                : partition.entry().name();
        return partition.number() + " " + SafeText.of(kind) + (label == null || label.isBlank() ? "" : " \u201C" + SafeText.of(label) + "\u201D");
    }

    private String fit(String words, int width) {
        if (gc.textExtent(words).x <= width) {
            return words;
        }
        for (int length = words.length() - 1; length > 1; length--) {
            String shorter = words.substring(0, length).stripTrailing() + "\u2026";
            if (gc.textExtent(shorter).x <= width) {
                return shorter;
            }
        }
        return gc.textExtent(words.substring(0, 1)).x <= width ? words.substring(0, 1) : "";
    }
}
