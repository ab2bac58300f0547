package sectorglass.workbench.look;

import java.util.EnumMap;
import java.util.Map;

import org.eclipse.swt.graphics.Image;
import org.eclipse.swt.graphics.ImageData;
import org.eclipse.swt.graphics.ImageDataProvider;
import org.eclipse.swt.graphics.PaletteData;
import org.eclipse.swt.widgets.Display;

/** The signs as small images for trees and tables, made for the zoom of the screen. To be disposed. */
public final class SignImages {
    private static final int SIZE = 13;
    /** Samples per pixel edge. */
    private static final int FINE = 4;

    private final Map<Sign, Image> made = new EnumMap<>(Sign.class);
    private Theme theme = Ink.theme();

    /** The image of a sign. */
    public Image of(Sign sign) {
        if (theme != Ink.theme()) {
            dispose();
            theme = Ink.theme();
        }
        return made.computeIfAbsent(sign, wanted -> new Image(Display.getCurrent(),
                (ImageDataProvider) zoom -> data(wanted, SIZE * zoom / 100, Ink.theme())));
    }

    /** The pixels of a sign on nothing, its edges smooth. */
    static ImageData data(Sign sign, int size, Theme theme) {
        ImageData data = new ImageData(size, size, 32, new PaletteData(0xFF0000, 0xFF00, 0xFF));
        int fill = sign.tone().rgb(theme);
        int outline = Tone.OUTLINE.rgb(theme);
        double edge = size / 13.0;
        for (int y = 0; y < size; y++) {
            for (int x = 0; x < size; x++) {
                int filled = 0;
                int outlined = 0;
                for (int s = 0; s < FINE * FINE; s++) {
                    double px = (x + (s % FINE + 0.5) / FINE) / size * 2 - 1;
                    double py = (y + (s / FINE + 0.5) / FINE) / size * 2 - 1;
                    switch (part(sign, px, py, edge * 2 / size)) {
                        case 1 -> filled++;
                        case 2 -> outlined++;
                        default -> { }
                    }
                }
                int all = filled + outlined;
                data.setAlpha(x, y, all * 255 / (FINE * FINE));
                data.setPixel(x, y, all == 0 ? 0 : outlined > filled ? outline : fill);
            }
        }
        return data;
    }

    /** 0: nothing, 1: fill, 2: outline; coordinates from -1 to 1, {@code line} is the width of a line in them. */
    private static int part(Sign sign, double x, double y, double line) {
        double square = Math.max(Math.abs(x), Math.abs(y));
        double diamond = Math.abs(x) + Math.abs(y);
        double circle = Math.hypot(x, y);
        return switch (sign) {
            case UNUSABLE -> square > 0.85 ? 0 : square > 0.85 - line ? 2 : 1;
            case AT_RISK -> diamond > 1 ? 0 : diamond > 1 - 1.4 * line ? 2 : 1;
            case COSMETIC -> circle > 0.85 || circle < 0.85 - 2 * line ? 0 : 1;
            case NOT_CHECKED -> square > 0.85 ? 0 : square > 0.85 - line || Math.abs(y) < line / 2 ? 1 : 0;
        };
    }

    /** Disposes the images. */
    public void dispose() {
        made.values().forEach(Image::dispose);
        made.clear();
    }
}
