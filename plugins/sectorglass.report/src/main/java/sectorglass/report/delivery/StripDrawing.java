package sectorglass.report.delivery;

import java.util.List;
import java.util.Locale;

import sectorglass.disk.Disk;
import sectorglass.disk.Partition;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.report.document.Html;

/** The disk to scale: partitions above, below them what was read; a place that failed stays visible however small it is. */
final class StripDrawing {
    private static final int COLUMNS = 1000;
    private static final ReadState[] STATES = {ReadState.UNREAD, ReadState.SKIPPED, ReadState.FAILED};
    private static final String[] FILLS = {"#d9d9d9", "url(#cross)", "url(#slant)"};

    private final Disk disk;
    private final SectorImage image;
    private final Forms forms;

    StripDrawing(Disk disk, Forms forms) {
        this.disk = disk;
        this.image = disk.image();
        this.forms = forms;
    }

    String svg() {
        StringBuilder svg = new StringBuilder("<svg viewBox=\"0 0 1000 92\" role=\"img\" aria-label=\"" + Html.text(forms.of("bench.strip"))
                + "\" style=\"width:100%;font:11px sans-serif\">\n");
        double scale = COLUMNS / (double) Math.max(1, image.sectors());
        for (Partition partition : disk.partitions()) {
            double x = partition.range().first() * scale;
            double width = Math.max(1, Math.min(COLUMNS - x, partition.range().count() * scale));
            String label = partition.number() + (partition.volume() == null ? "" : " " + partition.volume().info().kind()
                    + (partition.volume().info().label() == null ? "" : " " + partition.volume().info().label()));
            svg.append(String.format(Locale.ROOT, "<rect x=\"%.2f\" y=\"4\" width=\"%.2f\" height=\"26\" fill=\"#f4f4f2\" stroke=\"#1a1a1a\"/>", x, width));
            int letters = (int) (width / 6.6) - 1;
            if (letters > 0) {
                svg.append(String.format(Locale.ROOT, "<text x=\"%.2f\" y=\"21\">%s</text>", x + 4, Html.text(label.length() > letters
                        ? label.substring(0, label.offsetByCodePoints(0, Math.min(letters, label.codePointCount(0, label.length())))) : label)));
            }
            svg.append('\n');
        }
        svg.append("<rect x=\"0\" y=\"36\" width=\"1000\" height=\"22\" fill=\"#0072B2\"/>\n");
        for (int i = 0; i < STATES.length; i++) {
            states(svg, image.inState(STATES[i], image.all()), FILLS[i], scale);
        }
        svg.append("<rect x=\"0\" y=\"36\" width=\"1000\" height=\"22\" fill=\"none\" stroke=\"#1a1a1a\"/>\n");
        int x = 0;
        List<String> keys = List.of("read", "failed", "skipped", "unread");
        String[] fills = {"#0072B2", FILLS[2], FILLS[1], FILLS[0]};
        for (int i = 0; i < keys.size(); i++) {
            svg.append("<rect x=\"").append(x).append("\" y=\"72\" width=\"11\" height=\"11\" fill=\"").append(fills[i]).append("\" stroke=\"#1a1a1a\"/><text x=\"")
                    .append(x + 16).append("\" y=\"82\">").append(Html.text(forms.of("read." + keys.get(i)))).append("</text>");
            x += 150;
        }
        return svg.append("</svg>\n").toString();
    }

    /** One piece per column at most, so that millions of ranges make no larger drawing. */
    private static void states(StringBuilder svg, SectorRanges ranges, String fill, double scale) {
        double drawn = -1;
        for (SectorRange run : ranges) {
            double from = Math.max(Math.floor(run.first() * scale), drawn);
            double end = Math.min(COLUMNS, Math.max(from + 1, Math.ceil(run.end() * scale)));
            if (end > drawn && from < COLUMNS) {
                svg.append(String.format(Locale.ROOT, "<rect x=\"%.0f\" y=\"36\" width=\"%.0f\" height=\"22\" fill=\"%s\"/>\n", from, end - from, fill));
                drawn = end;
            }
        }
    }
}
