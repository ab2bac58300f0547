package sectorglass.workbench.sectors;

import java.util.HashMap;
import java.util.Map;

import org.eclipse.swt.graphics.GC;

/** Widths of texts in one font, measured once. */
final class TextWidths {
    private static final int KEPT = 8000;

    private final Map<String, Integer> known = new HashMap<>();

    int of(GC gc, String text) {
        if (text.isEmpty()) {
            return 0;
        }
        Integer width = known.get(text);
        if (width == null) {
            if (known.size() > KEPT) {
                known.clear();
            }
            width = gc.textExtent(text).x;
            known.put(text, width);
        }
        return width;
    }

    void forget() {
        known.clear();
    }

    /** The text, or as much of its beginning as fits with an ellipsis; empty where not even two characters fit. */
    String fit(GC gc, String text, int width) {
        if (of(gc, text) <= width) {
            return text;
        }
        int low = 0;
        int high = text.length() - 1;
        while (low < high) {
            int middle = (low + high + 1) / 2;
            if (of(gc, text.substring(0, middle) + "\u2026") <= width) {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        return low < 2 ? "" : text.substring(0, low) + "\u2026";
    }
}
