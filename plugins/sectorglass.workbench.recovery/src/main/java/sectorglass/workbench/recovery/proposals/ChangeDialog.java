package sectorglass.workbench.recovery.proposals;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;

import org.eclipse.jface.dialogs.IDialogConstants;
import org.eclipse.jface.dialogs.TitleAreaDialog;
import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Shell;
import org.eclipse.swt.widgets.Text;

import sectorglass.image.SafeText;
import sectorglass.image.SectorImage;
import sectorglass.recovery.propose.FieldValue;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.recovery.Words;

/** Asks for a new value of a field and whether what depends on it is to follow. Nothing is written to the image. */
final class ChangeDialog extends TitleAreaDialog {
    private static final int MOST_CHOICES = 400;

    private final FieldValue field;
    private final SectorImage image;
    private final List<Long> numbers = new ArrayList<>();
    private Text value;
    private Combo names;
    private Button follow;
    private byte[] bytes;
    private boolean following;

    ChangeDialog(Shell shell, FieldValue field, SectorImage image) {
        super(shell);
        this.field = field;
        this.image = image;
        setShellStyle(getShellStyle() | SWT.RESIZE);
    }

    /** The new bytes, after the dialog was confirmed. */
    byte[] bytes() {
        return bytes;
    }

    /** Whether what depends on them is to follow. */
    boolean following() {
        return following;
    }

    @Override
    protected void configureShell(Shell shell) {
        super.configureShell(shell);
        shell.setText(Words.of("change.title"));
    }

    @Override
    protected Control createDialogArea(Composite parent) {
        Composite area = (Composite) super.createDialogArea(parent);
        setTitle(SafeText.of(field.field().label()));
        setMessage(Words.of("change.hint." + field.kind().name().toLowerCase(Locale.ROOT), Numbers.grouped(field.field().length())));
        Composite grid = new Composite(area, SWT.NONE);
        GridLayout layout = new GridLayout(2, false);
        layout.marginWidth = 12;
        layout.marginHeight = 10;
        grid.setLayout(layout);
        grid.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        label(grid, Words.of("change.place"));
        int size = image.sectorSize();
        label(grid, Words.of("change.at", Numbers.grouped(field.field().firstByte() / size), field.field().firstByte() % size));
        label(grid, Words.of("change.now"));
        String meaning = field.field().meaning();
        label(grid, SafeText.of(field.field().value() + (meaning == null || meaning.isEmpty() ? "" : " (" + meaning + ")")));
        label(grid, Words.of("change.value"));
        value = new Text(grid, SWT.BORDER);
        value.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        value.setText(field.text());
        value.selectAll();
        value.addListener(SWT.Modify, event -> check());
        choices(grid);
        label(grid, "");
        follow = new Button(grid, SWT.CHECK);
        follow.setText(Words.of("change.follow"));
        follow.setSelection(true);
        value.setFocus();
        return area;
    }

    private void choices(Composite grid) {
        Map<Long, String> all = field.field().choices();
        if (field.kind() != FieldValue.Kind.NUMBER || all.isEmpty() || all.size() > MOST_CHOICES) {
            return;
        }
        label(grid, Words.of("change.name"));
        names = new Combo(grid, SWT.DROP_DOWN | SWT.READ_ONLY);
        names.setVisibleItemCount(16);
        all.forEach((number, words) -> {
            numbers.add(number);
            names.add(Long.toHexString(number).toUpperCase(Locale.ROOT) + "  " + words);
        });
        names.addListener(SWT.Selection, event -> value.setText(Long.toUnsignedString(numbers.get(names.getSelectionIndex()))));
        mark();
    }

    private void mark() {
        if (names != null) {
            int at = -1;
            for (int i = 0; i < numbers.size(); i++) {
                at = Long.toUnsignedString(numbers.get(i)).equals(value.getText().strip()) ? i : at;
            }
            if (at >= 0) {
                names.select(at);
            } else {
                names.deselectAll();
            }
        }
    }

    private static void label(Composite grid, String text) {
        new Label(grid, SWT.NONE).setText(text.replace("&", "&&"));
    }

    private void check() {
        mark();
        try {
            field.bytes(value.getText());
            setErrorMessage(null);
            enable(true);
        } catch (IllegalArgumentException e) {
            setErrorMessage(Words.of("change.wrong"));
            enable(false);
        }
    }

    private void enable(boolean on) {
        if (getButton(IDialogConstants.OK_ID) != null) {
            getButton(IDialogConstants.OK_ID).setEnabled(on);
        }
    }

    @Override
    protected void okPressed() {
        bytes = field.bytes(value.getText());
        following = follow.getSelection();
        super.okPressed();
    }
}
