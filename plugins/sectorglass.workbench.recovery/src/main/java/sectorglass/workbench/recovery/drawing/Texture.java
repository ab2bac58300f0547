package sectorglass.workbench.recovery.drawing;

import java.util.List;
import java.util.Locale;

import org.eclipse.swt.SWT;
import org.eclipse.swt.graphics.GC;
import org.eclipse.swt.graphics.Rectangle;

import sectorglass.disk.FileState;
import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Tone;
import sectorglass.workbench.recovery.Words;

/** How a stretch of a bar is filled, told apart by texture first, by colour second. */
enum Texture {
    /** Complete: plain. */
    WHOLE(Tone.PARTITION, FileState.COMPLETE),
    /** Damaged: striped. */
    STRIPED(Tone.AT_RISK, FileState.DAMAGED),
    /** Lost: crossed. */
    CROSSED(Tone.UNUSABLE, FileState.LOST),
    /** Encrypted, elsewhere, unknown: dotted. */
    DOTTED(Tone.UNREAD, FileState.ELSEWHERE, FileState.ENCRYPTED, FileState.UNKNOWN);

    private static final int STEP = 6;

    private final Tone tone;
    private final List<FileState> states;

    Texture(Tone tone, FileState... states) {
        this.tone = tone;
        this.states = List.of(states);
    }

    /** The states of files that it stands for. */
    List<FileState> states() {
        return states;
    }

    /** Its name in the legend. */
    String word() {
        return Words.of("drawing." + name().toLowerCase(Locale.ROOT));
    }

    /** Fills a rectangle, with an outline. */
    void fill(GC gc, int x, int y, int width, int height) {
        Rectangle former = gc.getClipping();
        gc.setClipping(former.intersection(new Rectangle(x, y, width, height)));
        gc.setBackground(Ink.of(this == WHOLE ? tone : Tone.PAGE));
        gc.fillRectangle(x, y, width, height);
        gc.setForeground(Ink.of(tone));
        gc.setLineWidth(2);
        if (this == DOTTED) {
            gc.setLineStyle(SWT.LINE_DOT);
            for (int at = y + 2; at < y + height; at += STEP - 2) {
                gc.drawLine(x, at, x + width, at);
            }
            gc.setLineStyle(SWT.LINE_SOLID);
        } else if (this != WHOLE) {
            for (int at = Math.floorDiv(x - height, STEP) * STEP; at < x + width; at += STEP) {
                gc.drawLine(at, y + height, at + height, y);
                if (this == CROSSED) {
                    gc.drawLine(at, y, at + height, y + height);
                }
            }
        }
        gc.setLineWidth(1);
        gc.setClipping(former);
        gc.setForeground(Ink.of(Tone.OUTLINE));
        gc.drawRectangle(x, y, Math.max(0, width - 1), height - 1);
    }
}
