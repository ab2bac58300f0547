package sectorglass.workbench.findings;

import java.util.Comparator;
import java.util.Locale;

import sectorglass.image.SafeText;
import sectorglass.verify.Finding;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Sign;
import sectorglass.workbench.look.Texts;

/** A column of the findings: its width at the first start, what it shows, how it sorts. */
enum FindingColumn {
    SEVERITY(180, Comparator.comparing(Sign::of)),
    WHAT(430, Comparator.comparing(Finding::what)),
    WHERE(150, Comparator.comparing(Finding::where)),
    STORED(150, Comparator.comparing(finding -> String.valueOf(finding.stored()))),
    COMPUTED(150, Comparator.comparing(finding -> String.valueOf(finding.computed()))),
    VOLUME(70, Comparator.comparing(Finding::volume, Comparator.nullsFirst(Comparator.naturalOrder()))),
    CHECK(200, Comparator.comparing(Finding::check));

    private final int width;
    private final Comparator<Finding> order;

    FindingColumn(int width, Comparator<Finding> order) {
        this.width = width;
        this.order = order;
    }

    int width() {
        return width;
    }

    /** By this column, those of equal rank by address and number. */
    Comparator<Finding> order(boolean backwards) {
        Comparator<Finding> by = backwards ? order.reversed() : order;
        return by.thenComparing(Finding::where).thenComparingInt(Finding::id);
    }

    String title() {
        return Texts.of("findings." + name().toLowerCase(Locale.ROOT));
    }

    /** What the column shows; never null. */
    String text(Finding finding, int sectorSize, boolean accepted) {
        String text = switch (this) {
            case SEVERITY -> accepted ? Texts.of("findings.accepted.sign", Sign.of(finding).word()) : Sign.of(finding).word();
            case WHAT -> finding.what();
            case WHERE -> Numbers.place(finding.where().start(), sectorSize);
            case STORED -> finding.stored();
            case COMPUTED -> finding.computed();
            case VOLUME -> finding.volume() == null ? "" : finding.volume().toString();
            case CHECK -> finding.check();
        };
        return text == null ? "" : SafeText.of(text);
    }
}
