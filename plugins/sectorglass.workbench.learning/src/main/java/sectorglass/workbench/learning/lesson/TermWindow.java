package sectorglass.workbench.learning.lesson;

import org.eclipse.jface.dialogs.PopupDialog;
import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.StyledText;
import org.eclipse.swt.graphics.Point;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Label;

import sectorglass.workbench.look.Size;

/** A term and what it means, in a small window that Escape or a click beside it closes. */
final class TermWindow extends PopupDialog {
    private static final int WIDTH = 360;

    private final StyledText over;
    private final String words;

    private TermWindow(StyledText over, String words) {
        super(over.getShell(), SWT.ON_TOP | SWT.TOOL, true, false, false, false, false, null, null);
        this.over = over;
        this.words = words;
    }

    static void open(StyledText over, String words) {
        new TermWindow(over, words).open();
    }

    @Override
    protected Control createDialogArea(Composite parent) {
        Composite area = (Composite) super.createDialogArea(parent);
        Label label = new Label(area, SWT.WRAP);
        label.setText(words.replace("&", "&&"));
        label.setFont(Size.reading());
        GridData data = new GridData(SWT.FILL, SWT.FILL, true, true);
        data.widthHint = Size.scaled(WIDTH);
        data.horizontalIndent = 6;
        label.setLayoutData(data);
        return area;
    }

    @Override
    protected Point getInitialLocation(Point size) {
        Point at = over.getLocationAtOffset(over.getCaretOffset());
        return over.toDisplay(at.x, at.y + over.getLineHeight());
    }
}
