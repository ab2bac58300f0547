package sectorglass.workbench.recovery.report;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.function.Consumer;

import org.eclipse.jface.dialogs.IDialogConstants;
import org.eclipse.jface.dialogs.TitleAreaDialog;
import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.DirectoryDialog;
import org.eclipse.swt.widgets.FileDialog;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Text;

import sectorglass.workbench.recovery.Words;

/** Asks where reports go and what they hold. */
final class ReportDialog extends TitleAreaDialog {
    private static final Locale[] LANGUAGES = {Locale.ENGLISH, Locale.GERMAN};

    private final Consumer<ReportWish> wanted;
    private Text folder;
    private Text reference;
    private Text list;
    private Combo language;
    private Button test;
    private Button thumbnails;
    private Button full;
    private Button hash;

    ReportDialog(Shell shell, Consumer<ReportWish> wanted) {
        super(shell);
        this.wanted = wanted;
        setShellStyle(getShellStyle() | SWT.RESIZE);
    }

    @Override
    protected void configureShell(Shell shell) {
        super.configureShell(shell);
        shell.setText(Words.of("report.title"));
    }

    @Override
    protected Control createDialogArea(Composite parent) {
        setTitle(Words.of("report.title"));
        setMessage(Words.of("report.message"));
        Composite area = (Composite) super.createDialogArea(parent);
        Composite fields = new Composite(area, SWT.NONE);
        fields.setLayout(new GridLayout(3, false));
        fields.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        folder = field(fields, "report.folder");
        browse(fields, () -> {
            DirectoryDialog dialog = new DirectoryDialog(getShell(), SWT.SAVE);
            dialog.setText(Words.of("report.folder"));
            return dialog.open();
        }, folder);
        reference = field(fields, "report.reference");
        reference.setMessage(Words.of("report.reference.hint"));
        new Label(fields, SWT.NONE);
        list = field(fields, "report.wanted");
        list.setMessage(Words.of("report.wanted.hint"));
        browse(fields, () -> {
            FileDialog dialog = new FileDialog(getShell(), SWT.OPEN);
            dialog.setFilterExtensions(new String[] {"*.csv", "*"});
            return dialog.open();
        }, list);
        new Label(fields, SWT.NONE).setText(Words.of("report.language"));
        language = new Combo(fields, SWT.READ_ONLY);
        for (Locale one : LANGUAGES) {
            language.add(one.getDisplayLanguage(one));
        }
        language.select(Locale.getDefault().getLanguage().equals("de") ? 1 : 0);
        new Label(fields, SWT.NONE);
        new Label(fields, SWT.NONE);
        test = check(fields, "report.test");
        new Label(fields, SWT.NONE);
        thumbnails = check(fields, "report.thumbnails");
        thumbnails.setToolTipText(Words.of("report.thumbnails.tip"));
        new Label(fields, SWT.NONE);
        full = check(fields, "report.full");
        new Label(fields, SWT.NONE);
        hash = check(fields, "report.hash");
        folder.addListener(SWT.Modify, event -> check());
        list.addListener(SWT.Modify, event -> check());
        return area;
    }

    private static Button check(Composite parent, String key) {
        Button made = new Button(parent, SWT.CHECK);
        made.setText(Words.of(key));
        made.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false, 2, 1));
        return made;
    }

    private static Text field(Composite parent, String key) {
        new Label(parent, SWT.NONE).setText(Words.of(key));
        Text text = new Text(parent, SWT.BORDER);
        GridData data = new GridData(SWT.FILL, SWT.CENTER, true, false);
        data.widthHint = 340;
        text.setLayoutData(data);
        return text;
    }

    private static void browse(Composite parent, java.util.function.Supplier<String> ask, Text to) {
        Button button = new Button(parent, SWT.PUSH);
        button.setText(Words.of("report.browse"));
        button.addListener(SWT.Selection, event -> {
            String chosen = ask.get();
            if (chosen != null) {
                to.setText(chosen);
            }
        });
    }

    @Override
    protected void createButtonsForButtonBar(Composite parent) {
        createButton(parent, IDialogConstants.OK_ID, Words.of("report.write"), true);
        createButton(parent, IDialogConstants.CANCEL_ID, IDialogConstants.CANCEL_LABEL, false);
        check();
    }

    private void check() {
        String where = folder.getText().strip();
        String what = list.getText().strip();
        boolean there = !where.isEmpty() && Files.exists(Path.of(where).resolve("customer.html"));
        boolean absent = !what.isEmpty() && !Files.isReadable(Path.of(what));
        setErrorMessage(there ? Words.of("report.exists", where) : absent ? Words.of("report.absent", what) : null);
        getButton(IDialogConstants.OK_ID).setEnabled(!where.isEmpty() && !there && !absent);
    }

    @Override
    protected void okPressed() {
        String what = list.getText().strip();
        String whose = reference.getText().strip();
        ReportWish wish = new ReportWish(Path.of(folder.getText().strip()), whose.isEmpty() ? null : whose, what.isEmpty() ? null : Path.of(what),
                LANGUAGES[language.getSelectionIndex()], test.getSelection(), thumbnails.getSelection(),
                full.getSelection(), hash.getSelection());
        super.okPressed();
        wanted.accept(wish);
    }
}
