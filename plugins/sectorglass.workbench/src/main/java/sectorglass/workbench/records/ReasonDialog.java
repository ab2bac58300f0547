package sectorglass.workbench.records;

import java.util.function.BiConsumer;

import org.eclipse.jface.dialogs.IDialogConstants;
import org.eclipse.jface.dialogs.TitleAreaDialog;
import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Text;

import sectorglass.workbench.look.Texts;

/** Asks why something is recorded, and who does it; both are needed. */
public final class ReasonDialog extends TitleAreaDialog {
    private final String title;
    private final String message;
    private final String button;
    private final BiConsumer<String, String> given;
    private Text why;
    private Text who;

    /**
     * Prepares it; {@link #open} shows it.
     *
     * @param given hears who and why
     */
    public ReasonDialog(Shell shell, String title, String message, String button, BiConsumer<String, String> given) {
        super(shell);
        this.title = title;
        this.message = message;
        this.button = button;
        this.given = given;
        setShellStyle(getShellStyle() | SWT.RESIZE);
    }

    @Override
    protected void configureShell(Shell shell) {
        super.configureShell(shell);
        shell.setText(title);
    }

    @Override
    protected Control createDialogArea(Composite parent) {
        setTitle(title);
        setMessage(message);
        Composite area = (Composite) super.createDialogArea(parent);
        Composite fields = new Composite(area, SWT.NONE);
        fields.setLayout(new GridLayout(2, false));
        fields.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        why = field(fields, "records.why", SWT.BORDER | SWT.MULTI | SWT.WRAP | SWT.V_SCROLL);
        GridData tall = new GridData(SWT.FILL, SWT.FILL, true, true);
        tall.heightHint = 70;
        tall.widthHint = 360;
        why.setLayoutData(tall);
        why.addListener(SWT.Traverse, event -> event.doit = event.doit || event.detail == SWT.TRAVERSE_TAB_NEXT || event.detail == SWT.TRAVERSE_TAB_PREVIOUS);
        who = field(fields, "records.who", SWT.BORDER);
        who.setText(Recorder.name());
        return area;
    }

    private Text field(Composite parent, String key, int style) {
        Label label = new Label(parent, SWT.NONE);
        label.setText(Texts.of(key));
        label.setLayoutData(new GridData(SWT.BEGINNING, (style & SWT.MULTI) != 0 ? SWT.BEGINNING : SWT.CENTER, false, false));
        Text text = new Text(parent, style);
        text.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        text.addListener(SWT.Modify, event -> check());
        return text;
    }

    @Override
    protected void createButtonsForButtonBar(Composite parent) {
        createButton(parent, IDialogConstants.OK_ID, button, true);
        createButton(parent, IDialogConstants.CANCEL_ID, Texts.of("records.cancel"), false);
        check();
        why.setFocus();
    }

    private void check() {
        if (getButton(IDialogConstants.OK_ID) != null) {
            getButton(IDialogConstants.OK_ID).setEnabled(!why.getText().isBlank() && !who.getText().isBlank());
        }
    }

    @Override
    protected void okPressed() {
        String name = who.getText().strip();
        String reason = why.getText().strip();
        super.okPressed();
        Recorder.keep(name);
        given.accept(name, reason);
    }
}
