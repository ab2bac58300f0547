package sectorglass.partition.label;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.MapEntry;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.partition.BeyondEnd;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** The rules that hold for the slots of every label: in the image, and apart from each other. */
final class LabelSlot {

    private LabelSlot() {
    }

    /**
     * Judges the slots.
     *
     * @param kind bsd, sun or sgi
     * @param cause a checksum that does not hold, or null
     */
    static void check(String kind, List<MapEntry> entries, SectorImage image, Mark cause, Checks out) {
        List<MapEntry> before = new ArrayList<>();
        for (MapEntry entry : entries) {
            SectorRange range = entry.range();
            Mark inside = out.report(kind + ".partition-range", entry.where(), range(range, image).with("slot", entry.slot())
                    .because(cause));
            if (entry.use() == MapEntry.Use.PARTITION) {
                MapEntry other = before.stream().filter(b -> b.range().overlaps(range)).findFirst().orElse(null);
                out.report(kind + ".partition-overlap", entry.where(), (other == null ? Outcome.passed()
                        : Outcome.failed(text(range), "clear of " + text(other.range())).with("other", other.slot()))
                        .with("slot", entry.slot()).because(cause != null ? cause : inside));
                before.add(entry);
            }
        }
    }

    static Outcome range(SectorRange range, SectorImage image) {
        return Outcome.test(range.end() <= image.sectors(), "last sector " + (range.end() - 1), "at most " + (image.sectors() - 1))
                .with("causes", BeyondEnd.causes(range.end(), image));
    }

    static String text(SectorRange range) {
        return "sectors " + range.first() + " to " + (range.end() - 1);
    }
}
