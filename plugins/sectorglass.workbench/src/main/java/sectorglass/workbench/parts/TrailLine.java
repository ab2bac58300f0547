package sectorglass.workbench.parts;

import java.util.ArrayList;
import java.util.List;

import org.eclipse.swt.SWT;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Link;

import sectorglass.image.SafeText;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Desk;
import sectorglass.workbench.model.Step;

/** The trail: how one came here; each step is a link back. The last steps are shown that fit. */
final class TrailLine {
    private static final String ARROW = "  \u203A  ";

    private final Link line;
    private final Desk desk;
    private String shown = "";

    TrailLine(Composite parent, Desk desk) {
        this.desk = desk;
        line = new Link(parent, SWT.NONE);
        line.addListener(SWT.Selection, event -> desk.back(Integer.parseInt(event.text)));
        line.setToolTipText(Texts.of("trail.tip"));
    }

    Control control() {
        return line;
    }

    void refresh() {
        if (desk.open() == null || line.isDisposed()) {
            return;
        }
        List<Step> steps = desk.trail().steps();
        int at = desk.trail().at();
        List<String> pieces = new ArrayList<>();
        int length = 0;
        int room = Math.max(40, line.getSize().x / 7);
        int first = steps.size();
        for (int i = steps.size() - 1; i >= 0; i--) {
            String name = name(steps.get(i), i);
            length += name.length() + ARROW.length();
            if (length > room && i < at) {
                break;
            }
            pieces.add(0, i == at ? escape(name) : "<a href=\"" + i + "\">" + escape(name) + "</a>");
            first = i;
        }
        String text = (first > 0 ? "\u2026" + ARROW : "") + String.join(ARROW, pieces);
        if (!text.equals(shown)) {
            shown = text;
            line.setText(text);
        }
    }

    private String name(Step step, int index) {
        String place = Numbers.place(step.address(), desk.open().image().sectorSize());
        String structure = desk.open().disk().maps().isEmpty() && desk.open().disk().volume() == null ? null
                : index == desk.trail().at() && desk.explained() != null
                        && desk.explained().structure().range().contains(step.address()) ? desk.explained().structure().name() : null;
        String what = structure != null ? structure : place;
        return SafeText.of(step.by().isEmpty() ? what : step.by() + " \u2192 " + what);
    }

    private static String escape(String text) {
        return text.replace("&", "&&").replace("<", "\u2039").replace(">", "\u203A");
    }
}
