package sectorglass.workbench.parts;

import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.StyleRange;
import org.eclipse.swt.custom.StyledText;
import org.eclipse.swt.layout.FillLayout;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.ui.part.ViewPart;

import sectorglass.workbench.look.Texts;

/** The help: what each part is for, the signs, and the card of keys. */
public final class KeysPart extends ViewPart {
    /** Id of the part. */
    public static final String ID = "sectorglass.workbench.keys";

    private StyledText text;

    @Override
    public void createPartControl(Composite parent) {
        parent.setLayout(new FillLayout());
        text = new StyledText(parent, SWT.WRAP | SWT.V_SCROLL | SWT.READ_ONLY | SWT.MULTI);
        text.setMargins(14, 10, 14, 10);
        text.setLineSpacing(3);
        StringBuilder all = new StringBuilder();
        java.util.List<StyleRange> bold = new java.util.ArrayList<>();
        for (String line : Texts.of("help.text").split("\\|")) {
            String words = line.strip();
            int at = all.length();
            if (words.startsWith("#")) {
                String heading = words.substring(1).strip();
                all.append(at == 0 ? "" : "\n").append(heading).append('\n');
                bold.add(new StyleRange(all.length() - heading.length() - 1, heading.length(), null, null, SWT.BOLD));
            } else {
                int split = words.indexOf("::");
                String key = split < 0 ? "" : words.substring(0, split).strip();
                all.append(split < 0 ? words : key + "\t" + words.substring(split + 2).strip()).append('\n');
                if (!key.isEmpty()) {
                    bold.add(new StyleRange(at, key.length(), null, null, SWT.BOLD));
                }
            }
        }
        text.setText(all.toString());
        text.setTabs(26);
        bold.forEach(text::setStyleRange);
    }

    @Override
    public void setFocus() {
        text.setFocus();
    }
}
