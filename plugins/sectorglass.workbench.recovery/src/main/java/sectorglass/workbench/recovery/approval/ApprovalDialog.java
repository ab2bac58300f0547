package sectorglass.workbench.recovery.approval;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeParseException;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.function.Consumer;

import org.eclipse.jface.dialogs.IDialogConstants;
import org.eclipse.jface.dialogs.TitleAreaDialog;
import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.TableColumn;
import org.eclipse.swt.widgets.TableItem;
import org.eclipse.swt.widgets.Text;

import sectorglass.image.SafeText;
import sectorglass.recovery.Job;
import sectorglass.workbench.records.Recorder;
import sectorglass.workbench.recovery.Words;

/** Shows the approvals that were recorded, and records another one: by whom, received when and how, of what. */
final class ApprovalDialog extends TitleAreaDialog {
    private static final String[] COLUMNS = {"day", "by", "how", "what", "who"};
    private static final int[] WIDTHS = {100, 130, 130, 250, 110};

    private final List<Job.Approval> known;
    private final String reference;
    private final Consumer<Job.Approval> wanted;
    private Text by;
    private Text day;
    private Combo how;
    private Text what;
    private Text who;

    /**
     * Prepares it.
     *
     * @param reference the customer's, or null
     * @param wanted hears what is to be recorded
     */
    ApprovalDialog(Shell shell, List<Job.Approval> known, String reference, Consumer<Job.Approval> wanted) {
        super(shell);
        this.known = known;
        this.reference = reference;
        this.wanted = wanted;
        setShellStyle(getShellStyle() | SWT.RESIZE);
    }

    @Override
    protected void configureShell(Shell shell) {
        super.configureShell(shell);
        shell.setText(Words.of("approval.title"));
    }

    @Override
    protected Control createDialogArea(Composite parent) {
        setTitle(Words.of("approval.title"));
        setMessage(Words.of("approval.message"));
        Composite area = (Composite) super.createDialogArea(parent);
        Composite fields = new Composite(area, SWT.NONE);
        fields.setLayout(new GridLayout(2, false));
        fields.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        earlier(fields);
        by = field(fields, "approval.by", SWT.BORDER);
        by.setMessage(Words.of("approval.by.hint"));
        by.setText(reference == null ? "" : reference);
        day = field(fields, "approval.day", SWT.BORDER);
        day.setText(LocalDate.now().toString());
        label(fields, "approval.how");
        how = new Combo(fields, SWT.NONE);
        how.setItems(Words.of("approval.ways").split("\\|"));
        how.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        how.addListener(SWT.Modify, event -> check());
        what = field(fields, "approval.what", SWT.BORDER);
        what.setMessage(Words.of("approval.what.hint"));
        who = field(fields, "approval.who", SWT.BORDER);
        who.setText(Recorder.name());
        return area;
    }

    private void earlier(Composite parent) {
        Label label = new Label(parent, SWT.NONE);
        label.setText(known.isEmpty() ? Words.of("approval.none") : Words.of("approval.known", known.size()));
        label.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false, 2, 1));
        if (known.isEmpty()) {
            return;
        }
        Table table = new Table(parent, SWT.BORDER | SWT.FULL_SELECTION);
        table.setHeaderVisible(true);
        GridData data = new GridData(SWT.FILL, SWT.FILL, true, true, 2, 1);
        data.heightHint = 90;
        table.setLayoutData(data);
        for (int i = 0; i < COLUMNS.length; i++) {
            TableColumn column = new TableColumn(table, SWT.NONE);
            column.setText(Words.of("approval.column." + COLUMNS[i]));
            column.setWidth(WIDTHS[i]);
        }
        for (Job.Approval one : known) {
            new TableItem(table, SWT.NONE).setText(new String[] {ApprovalWords.day(one), safe(one.by()), safe(one.how()), safe(one.note()), safe(one.who())});
        }
    }

    private static String safe(String text) {
        return text == null ? "" : SafeText.of(text);
    }

    private static void label(Composite parent, String key) {
        new Label(parent, SWT.NONE).setText(Words.of(key));
    }

    private Text field(Composite parent, String key, int style) {
        label(parent, key);
        Text text = new Text(parent, style);
        GridData data = new GridData(SWT.FILL, SWT.CENTER, true, false);
        data.widthHint = 380;
        text.setLayoutData(data);
        text.addListener(SWT.Modify, event -> check());
        return text;
    }

    @Override
    protected void createButtonsForButtonBar(Composite parent) {
        createButton(parent, IDialogConstants.OK_ID, Words.of("approval.record"), true);
        createButton(parent, IDialogConstants.CANCEL_ID, Words.of("approval.cancel"), false);
        check();
        by.setFocus();
    }

    private void check() {
        if (getButton(IDialogConstants.OK_ID) != null) {
            LocalDate received = received();
            boolean wrong = received == null || received.isAfter(LocalDate.now());
            setErrorMessage(received == null ? Words.of("approval.day.wrong") : wrong ? Words.of("approval.day.later") : null);
            getButton(IDialogConstants.OK_ID).setEnabled(!wrong && !by.getText().isBlank() && !how.getText().isBlank() && !who.getText().isBlank());
        }
    }

    private LocalDate received() {
        try {
            return LocalDate.parse(day.getText().strip());
        } catch (DateTimeParseException e) {
            return null;
        }
    }

    @Override
    protected void okPressed() {
        LocalDate received = received();
        Instant at = received.equals(LocalDate.now()) ? Instant.now().truncatedTo(ChronoUnit.SECONDS) : received.atStartOfDay(ZoneId.systemDefault()).toInstant();
        String note = what.getText().strip();
        Job.Approval approval = new Job.Approval(at, who.getText().strip(), by.getText().strip(), how.getText().strip(), note.isEmpty() ? null : note);
        super.okPressed();
        Recorder.keep(approval.who());
        wanted.accept(approval);
    }
}
