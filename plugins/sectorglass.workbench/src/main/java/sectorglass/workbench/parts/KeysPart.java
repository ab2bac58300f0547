package sectorglass.workbench.parts;

import java.util.List;

import org.eclipse.jface.dialogs.MessageDialog;
import org.eclipse.swt.SWT;
import org.eclipse.swt.SWTError;
import org.eclipse.swt.custom.StyleRange;
import org.eclipse.swt.custom.StyledText;
import org.eclipse.swt.custom.StyledTextPrintOptions;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.printing.PrintDialog;
import org.eclipse.swt.printing.Printer;
import org.eclipse.swt.printing.PrinterData;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.ui.part.ViewPart;

import sectorglass.workbench.help.HelpPage;
import sectorglass.workbench.help.HelpTopics;
import sectorglass.workbench.look.Texts;

/** The help: a page for each part, the signs, the card of keys, the guide. F1 shows the page of the part one stands in. */
public final class KeysPart extends ViewPart {
    /** Id of the part. */
    public static final String ID = "sectorglass.workbench.keys";

    private Combo topics;
    private StyledText text;

    @Override
    public void createPartControl(Composite parent) {
        Composite content = new Composite(parent, SWT.NONE);
        GridLayout grid = new GridLayout(2, false);
        grid.marginWidth = 8;
        grid.marginHeight = 6;
        content.setLayout(grid);
        topics = new Combo(content, SWT.READ_ONLY);
        topics.setToolTipText(Texts.of("page.choose"));
        for (String topic : HelpTopics.all()) {
            topics.add(HelpTopics.title(topic));
        }
        topics.setVisibleItemCount(HelpTopics.all().size());
        GridData wide = new GridData(SWT.FILL, SWT.CENTER, true, false);
        wide.widthHint = 120;
        topics.setLayoutData(wide);
        topics.addListener(SWT.Selection, event -> show(HelpTopics.all().get(topics.getSelectionIndex())));
        Button print = new Button(content, SWT.PUSH);
        print.setText(Texts.of("page.print"));
        print.addListener(SWT.Selection, event -> print());
        text = new StyledText(content, SWT.WRAP | SWT.V_SCROLL | SWT.READ_ONLY | SWT.MULTI);
        GridData all = new GridData(SWT.FILL, SWT.FILL, true, true, 2, 1);
        all.widthHint = 120;
        all.heightHint = 60;
        text.setLayoutData(all);
        text.setMargins(8, 6, 8, 6);
        text.setLineSpacing(3);
        show(HelpTopics.all().get(0));
    }

    /** Shows a page. */
    public void show(String topic) {
        topics.select(HelpTopics.all().indexOf(topic));
        HelpPage page = HelpPage.of(topic);
        text.setText(page.text());
        text.setTabStops(new int[] {HelpTopics.CARD.equals(topic) || HelpTopics.GUIDE.equals(topic) ? 170 : 130});
        page.bold().forEach(bold -> text.setStyleRange(new StyleRange(bold.start(), bold.length(), null, null, SWT.BOLD)));
        int wrapped = HelpTopics.CARD.equals(topic) || HelpTopics.GUIDE.equals(topic) ? 170 : 130;
        for (int line = 0; line < text.getLineCount(); line++) {
            if (text.getLine(line).indexOf('\t') >= 0) {
                text.setLineWrapIndent(line, 1, wrapped);
            }
        }
        text.setTopIndex(0);
    }

    /** The titles of the pages and the text shown, for tests. */
    public List<String> shown() {
        return List.of(topics.getText(), text.getText());
    }

    private void print() {
        try {
            PrinterData chosen = new PrintDialog(text.getShell(), SWT.NONE).open();
            if (chosen != null) {
                Printer printer = new Printer(chosen);
                StyledTextPrintOptions options = new StyledTextPrintOptions();
                options.jobName = "Sectorglass";
                options.printTextFontStyle = true;
                options.footer = topics.getText() + StyledTextPrintOptions.SEPARATOR + StyledTextPrintOptions.SEPARATOR
                        + StyledTextPrintOptions.PAGE_TAG;
                text.print(printer, options).run();
                printer.dispose();
            }
        } catch (SWTError e) {
            MessageDialog.openError(text.getShell(), Texts.of("page.print"), Texts.of("page.print.failed", String.valueOf(e.getMessage())));
        }
    }

    @Override
    public void setFocus() {
        text.setFocus();
    }
}
