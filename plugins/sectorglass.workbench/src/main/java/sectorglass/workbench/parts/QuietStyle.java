package sectorglass.workbench.parts;

import org.eclipse.jface.viewers.StyledString.Styler;
import org.eclipse.swt.graphics.TextStyle;

import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Tone;

/** Less loud text in trees and tables, with enough contrast. */
final class QuietStyle extends Styler {
    static final QuietStyle STYLER = new QuietStyle();

    @Override
    public void applyStyles(TextStyle style) {
        style.foreground = Ink.of(Tone.QUIET);
    }
}
