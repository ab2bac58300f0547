package sectorglass.workbench.parts;

import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.StackLayout;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Label;

import sectorglass.workbench.look.Texts;

/** A part's content, or a sentence that says what the part is for while there is nothing to show. */
final class EmptyHint {
    private final Composite stack;
    private final StackLayout layout = new StackLayout();
    private final Composite empty;
    private final Label sentence;
    private Control content;

    EmptyHint(Composite parent, String key) {
        stack = new Composite(parent, SWT.NONE);
        stack.setLayout(layout);
        stack.setData("sectorglass.part", key.substring(0, key.indexOf('.')));
        empty = new Composite(stack, SWT.NONE);
        GridLayout grid = new GridLayout();
        grid.marginWidth = 10;
        grid.marginHeight = 8;
        empty.setLayout(grid);
        sentence = new Label(empty, SWT.WRAP);
        sentence.setText(Texts.of(key));
        GridData data = new GridData(SWT.FILL, SWT.BEGINNING, true, false);
        data.widthHint = 100;
        sentence.setLayoutData(data);
        layout.topControl = empty;
    }

    /** Where the content is built. */
    Composite parent() {
        return stack;
    }

    /** Shows the content, or the sentence. */
    void show(Control shown, boolean hasContent) {
        content = shown;
        Control top = hasContent ? content : empty;
        if (layout.topControl != top) {
            layout.topControl = top;
            stack.layout(true, true);
        }
    }

    /** Changes the sentence. */
    void say(String text) {
        sentence.setText(text);
        empty.layout();
    }
}
