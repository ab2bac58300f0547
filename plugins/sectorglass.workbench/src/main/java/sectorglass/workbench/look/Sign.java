package sectorglass.workbench.look;

import org.eclipse.swt.SWT;
import org.eclipse.swt.graphics.Color;
import org.eclipse.swt.graphics.GC;

import sectorglass.verify.Finding;
import sectorglass.verify.Severity;
import sectorglass.verify.Verdict;

/** The signs of findings: told apart by shape first, by colour second. */
public enum Sign {
    /** Filled square. */
    UNUSABLE("\u25A0", Tone.UNUSABLE),
    /** Filled diamond. */
    AT_RISK("\u25C6", Tone.AT_RISK),
    /** Open circle. */
    COSMETIC("\u25CB", Tone.COSMETIC),
    /** Hollow square with a bar. */
    NOT_CHECKED("N", Tone.UNREAD);

    private final String letter;
    private final Tone tone;

    Sign(String letter, Tone tone) {
        this.letter = letter;
        this.tone = tone;
    }

    /** The sign of a listed finding. */
    public static Sign of(Finding finding) {
        return finding.verdict() == Verdict.NOT_CHECKED ? NOT_CHECKED : of(finding.severity());
    }

    /** The sign of a severity. */
    public static Sign of(Severity severity) {
        return switch (severity) {
            case UNUSABLE -> UNUSABLE;
            case AT_RISK -> AT_RISK;
            case COSMETIC -> COSMETIC;
        };
    }

    /** The sign as a character, for texts. */
    public String letter() {
        return letter;
    }

    /** Its colour. */
    Tone tone() {
        return tone;
    }

    /** The word beside the sign. */
    public String word() {
        return Texts.of("sign." + name().toLowerCase(java.util.Locale.ROOT));
    }

    /**
     * Draws the sign into a square.
     *
     * @param size of its edge; 9 to 16 read well
     */
    public void draw(GC gc, int x, int y, int size) {
        Color fill = Ink.of(tone);
        Color outline = Ink.of(Tone.OUTLINE);
        Color formerForeground = gc.getForeground();
        Color formerBackground = gc.getBackground();
        int s = size - 1;
        gc.setAntialias(SWT.ON);
        gc.setLineWidth(1);
        switch (this) {
            case UNUSABLE -> {
                gc.setBackground(fill);
                gc.fillRectangle(x, y, s, s);
                gc.setForeground(outline);
                gc.drawRectangle(x, y, s, s);
            }
            case AT_RISK -> {
                int[] diamond = {x + s / 2, y, x + s, y + s / 2, x + s / 2, y + s, x, y + s / 2};
                gc.setBackground(fill);
                gc.fillPolygon(diamond);
                gc.setForeground(outline);
                gc.drawPolygon(diamond);
            }
            case COSMETIC -> {
                gc.setForeground(fill);
                gc.setLineWidth(2);
                gc.drawOval(x + 1, y + 1, s - 2, s - 2);
            }
            case NOT_CHECKED -> {
                gc.setForeground(fill);
                gc.drawRectangle(x, y, s, s);
                gc.drawLine(x, y + s / 2, x + s, y + s / 2);
            }
        }
        gc.setLineWidth(1);
        gc.setForeground(formerForeground);
        gc.setBackground(formerBackground);
    }
}
