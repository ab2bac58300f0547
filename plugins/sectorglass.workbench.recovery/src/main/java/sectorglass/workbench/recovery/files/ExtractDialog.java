package sectorglass.workbench.recovery.files;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.function.Consumer;

import org.eclipse.jface.dialogs.IDialogConstants;
import org.eclipse.jface.dialogs.TitleAreaDialog;
import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.DirectoryDialog;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Text;

import sectorglass.recovery.ExtractionRun;
import sectorglass.workbench.recovery.Words;

/** Asks where chosen files go, and how. */
final class ExtractDialog extends TitleAreaDialog {
    private final boolean withDeleted;
    private final Consumer<ExtractionRun.Wish> wanted;
    private Text folder;
    private Text fill;
    private Button deleted;
    private Button streams;
    private Button test;
    private Button resume;

    ExtractDialog(Shell shell, boolean withDeleted, Consumer<ExtractionRun.Wish> wanted) {
        super(shell);
        this.withDeleted = withDeleted;
        this.wanted = wanted;
        setShellStyle(getShellStyle() | SWT.RESIZE);
    }

    @Override
    protected void configureShell(Shell shell) {
        super.configureShell(shell);
        shell.setText(Words.of("files.extract.title"));
    }

    @Override
    protected Control createDialogArea(Composite parent) {
        setTitle(Words.of("files.extract.title"));
        setMessage(Words.of("files.extract.where"));
        Composite area = (Composite) super.createDialogArea(parent);
        Composite fields = new Composite(area, SWT.NONE);
        fields.setLayout(new GridLayout(3, false));
        fields.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        folder = text(fields, "report.folder", 340);
        Button browse = new Button(fields, SWT.PUSH);
        browse.setText(Words.of("report.browse"));
        browse.addListener(SWT.Selection, event -> {
            DirectoryDialog dialog = new DirectoryDialog(getShell(), SWT.SAVE);
            dialog.setText(Words.of("files.extract.title"));
            String chosen = dialog.open();
            if (chosen != null) {
                folder.setText(chosen);
            }
        });
        fill = text(fields, "extract.fill", 60);
        fill.setText("0");
        new Label(fields, SWT.NONE);
        deleted = check(fields, "extract.deleted", withDeleted);
        streams = check(fields, "extract.streams", true);
        test = check(fields, "extract.test", false);
        resume = check(fields, "extract.resume", false);
        return area;
    }

    private Text text(Composite parent, String key, int width) {
        new Label(parent, SWT.NONE).setText(Words.of(key));
        Text made = new Text(parent, SWT.BORDER);
        GridData data = new GridData(width > 100 ? SWT.FILL : SWT.BEGINNING, SWT.CENTER, width > 100, false);
        data.widthHint = width;
        made.setLayoutData(data);
        made.addListener(SWT.Modify, event -> check());
        return made;
    }

    private Button check(Composite parent, String key, boolean on) {
        Button made = new Button(parent, SWT.CHECK);
        made.setText(Words.of(key));
        made.setSelection(on);
        made.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false, 3, 1));
        made.addListener(SWT.Selection, event -> check());
        return made;
    }

    @Override
    protected void createButtonsForButtonBar(Composite parent) {
        createButton(parent, IDialogConstants.OK_ID, Words.of("extract.do"), true);
        createButton(parent, IDialogConstants.CANCEL_ID, Words.of("approval.cancel"), false);
        check();
    }

    private void check() {
        if (getButton(IDialogConstants.OK_ID) != null) {
            String where = folder.getText().strip();
            boolean there = !where.isEmpty() && !resume.getSelection() && Files.exists(Path.of(where).resolve("manifest.csv"));
            int number = number();
            setErrorMessage(there ? Words.of("extract.exists", where) : number < 0 ? Words.of("extract.fill.wrong") : null);
            getButton(IDialogConstants.OK_ID).setEnabled(!where.isEmpty() && !there && number >= 0);
        }
    }

    /** The byte that was typed, decimal or with 0x before it; -1 where it is none. */
    private int number() {
        try {
            int typed = Integer.decode(fill.getText().strip());
            return typed > 255 ? -1 : Math.max(-1, typed);
        } catch (NumberFormatException e) {
            return -1;
        }
    }

    @Override
    protected void okPressed() {
        ExtractionRun.Wish wish = new ExtractionRun.Wish(Path.of(folder.getText().strip()), (byte) number(), deleted.getSelection(), streams.getSelection(),
                ZoneId.systemDefault(), test.getSelection(), resume.getSelection());
        super.okPressed();
        wanted.accept(wish);
    }
}
