package sectorglass.workbench.sectors;

import org.eclipse.jface.resource.JFaceResources;
import org.eclipse.jface.util.IPropertyChangeListener;
import org.eclipse.swt.SWT;
import org.eclipse.swt.graphics.Font;
import org.eclipse.swt.graphics.FontData;
import org.eclipse.swt.graphics.GC;
import org.eclipse.swt.widgets.Control;

import sectorglass.workbench.look.Size;

/** The letters of the bytes and of their gloss, and how wide texts in them are; they follow the preferences and the projector size. */
final class SectorsFonts {
    private final Control control;
    private final TextWidths widths = new TextWidths();
    private Font bytes;
    private Font gloss;

    /**
     * The fonts as they are set now.
     *
     * @param changed hears that the font of the bytes was set otherwise
     * @param resized hears that the projector size was switched on or off
     */
    SectorsFonts(Control control, Runnable changed, Runnable resized) {
        this.control = control;
        renew();
        IPropertyChangeListener other = event -> {
            if (JFaceResources.TEXT_FONT.equals(event.getProperty())) {
                renew();
                changed.run();
            }
        };
        JFaceResources.getFontRegistry().addListener(other);
        Size.follow(control, () -> {
            renew();
            resized.run();
        });
        control.addListener(SWT.Dispose, event -> {
            JFaceResources.getFontRegistry().removeListener(other);
            gloss.dispose();
        });
    }

    private void renew() {
        Font former = gloss;
        bytes = Size.bytes();
        FontData[] smaller = JFaceResources.getDefaultFont().getFontData();
        for (FontData data : smaller) {
            data.setHeight(Math.max(7, Math.round(bytes.getFontData()[0].getHeight() * 0.85f)));
        }
        gloss = new Font(control.getDisplay(), smaller);
        widths.forget();
        if (former != null) {
            former.dispose();
        }
    }

    /** Of the bytes. */
    Font bytes() {
        return bytes;
    }

    /** Of names and values under them. */
    Font gloss() {
        return gloss;
    }

    /** Widths in the font of the gloss. */
    TextWidths widths() {
        return widths;
    }

    /** How wide a label is with its gaps. */
    int width(GC gc, Label label) {
        int width = 0;
        for (String piece : new String[] {label.name(), label.value(), label.wrong()}) {
            width += piece.isEmpty() ? 0 : widths.of(gc, piece) + 5;
        }
        return width;
    }
}
