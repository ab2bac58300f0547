package sectorglass.workbench.parts;

import java.time.ZoneId;
import java.util.List;

import org.eclipse.jface.resource.JFaceResources;
import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.StyleRange;
import org.eclipse.swt.custom.StyledText;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Text;

import sectorglass.decode.FieldNode;
import sectorglass.workbench.convert.Conversions;
import sectorglass.workbench.convert.Form;
import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Look;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.look.Tone;

/** Changes numbers, sizes, addresses, dates and ids into their other forms; takes the value at the caret on request. */
public final class ConverterPart extends DeskPart {
    /** Id of the part. */
    public static final String ID = "sectorglass.workbench.converter";

    private Text typed;
    private StyledText forms;

    @Override
    void create(Composite parent) {
        Composite content = new Composite(parent, SWT.NONE);
        GridLayout grid = new GridLayout(2, false);
        grid.marginWidth = 8;
        grid.marginHeight = 6;
        content.setLayout(grid);
        typed = new Text(content, SWT.SEARCH | SWT.ICON_CANCEL);
        typed.setMessage(Texts.of("convert.example"));
        typed.setToolTipText(Texts.of("convert.examples"));
        GridData wide = new GridData(SWT.FILL, SWT.CENTER, true, false);
        wide.widthHint = 160;
        typed.setLayoutData(wide);
        typed.addListener(SWT.Modify, event -> show());
        Button take = new Button(content, SWT.PUSH);
        take.setText(Texts.of("convert.take"));
        take.setToolTipText(Texts.of("convert.take.tip"));
        take.addListener(SWT.Selection, event -> take());
        forms = new StyledText(content, SWT.WRAP | SWT.V_SCROLL | SWT.READ_ONLY | SWT.MULTI);
        GridData all = new GridData(SWT.FILL, SWT.FILL, true, true, 2, 1);
        all.widthHint = 160;
        all.heightHint = 60;
        forms.setLayoutData(all);
        forms.setLineSpacing(2);
        Look.follow(forms, this::show);
        show();
    }

    private void take() {
        FieldNode field = desk().field();
        if (field != null && field.raw() instanceof Long number) {
            typed.setText(Long.toUnsignedString(number));
        } else if (field != null && field.value() != null) {
            typed.setText(field.value());
        }
    }

    /** Types into the field; for tests and commands. */
    public void type(String text) {
        typed.setText(text);
    }

    private void show() {
        int sectorSize = desk().open() == null ? 512 : desk().open().image().sectorSize();
        List<Form> found = Conversions.of(typed.getText(), sectorSize, ZoneId.systemDefault());
        Prose prose = new Prose();
        if (found.isEmpty()) {
            prose.paragraph(Texts.of(typed.getText().isBlank() ? "convert.purpose" : "convert.unknown"));
        }
        found.forEach(form -> prose.line(form.label(), form.text()));
        forms.setText(prose.text());
        for (Prose.Stretch stretch : prose.stretches()) {
            forms.setStyleRange(new StyleRange(stretch.start(), stretch.length(), Ink.of(Tone.QUIET), null, SWT.NORMAL));
        }
        forms.setFont(JFaceResources.getDialogFont());
    }

    @Override
    public void setFocus() {
        typed.setFocus();
    }
}
