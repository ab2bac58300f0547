package sectorglass.workbench.parts;

import java.util.Comparator;
import java.util.function.Supplier;

import org.eclipse.jface.viewers.ColumnLabelProvider;
import org.eclipse.swt.graphics.Image;

import sectorglass.image.SafeText;
import sectorglass.verify.Finding;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Sign;
import sectorglass.workbench.look.SignImages;
import sectorglass.workbench.model.OpenDisk;

/** Texts of one column of the findings. */
final class FindingLabels extends ColumnLabelProvider {

    /** The columns. */
    enum Column {
        SEVERITY(110, Comparator.comparing(Sign::of)),
        WHAT(440, Comparator.comparing(Finding::what)),
        WHERE(150, Comparator.comparing(Finding::where)),
        STORED(160, Comparator.comparing(finding -> String.valueOf(finding.stored()))),
        COMPUTED(160, Comparator.comparing(finding -> String.valueOf(finding.computed()))),
        CHECK(200, Comparator.comparing(Finding::check));

        private final int width;
        private final Comparator<Finding> order;

        Column(int width, Comparator<Finding> order) {
            this.width = width;
            this.order = order;
        }

        int width() {
            return width;
        }

        Comparator<Finding> order() {
            return order;
        }
    }

    private final Column column;
    private final Supplier<OpenDisk> open;
    private final SignImages images = new SignImages();

    FindingLabels(Column column, Supplier<OpenDisk> open) {
        this.column = column;
        this.open = open;
    }

    @Override
    public String getText(Object element) {
        Finding finding = (Finding) element;
        String text = switch (column) {
            case SEVERITY -> Sign.of(finding).word();
            case WHAT -> finding.what();
            case WHERE -> open.get() == null ? "" : Numbers.place(finding.where().start(), open.get().image().sectorSize());
            case STORED -> finding.stored();
            case COMPUTED -> finding.computed();
            case CHECK -> finding.check();
        };
        return text == null ? "" : SafeText.of(text);
    }

    @Override
    public Image getImage(Object element) {
        return column == Column.SEVERITY ? images.of(Sign.of((Finding) element)) : null;
    }

    @Override
    public String getToolTipText(Object element) {
        Finding finding = (Finding) element;
        return column != Column.WHAT ? null : SafeText.of(finding.what()) + "\n" + SafeText.of(finding.means()) + "\n"
                + SafeText.of(finding.advice());
    }

    @Override
    public void dispose() {
        images.dispose();
        super.dispose();
    }
}
