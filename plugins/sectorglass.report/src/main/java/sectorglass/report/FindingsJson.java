package sectorglass.report;

import java.util.List;

import sectorglass.image.SectorRange;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;

/** Findings as JSON. */
public final class FindingsJson {

    private FindingsJson() {
    }

    /**
     * Writes one object with the findings and their counts.
     *
     * @param all with passed and folded ones
     */
    public static void write(JsonOut out, Findings findings, int sectorSize, boolean all) {
        List<Finding> shown = all ? findings.all() : findings.listed();
        out.object(() -> {
            out.array("findings", shown, f -> finding(out, (Finding) f, sectorSize));
            Findings.Counts counts = findings.counts();
            out.object("counts", () -> out.field("unusable", counts.unusable()).field("atRisk", counts.atRisk())
                    .field("cosmetic", counts.cosmetic()).field("notChecked", counts.notChecked()).field("passed", counts.passed()));
        }).line();
    }

    private static void finding(JsonOut out, Finding f, int sectorSize) {
        out.object(() -> {
            out.field("id", f.id()).field("check", f.check()).field("verdict", f.verdict().word())
                    .field("severity", f.severity() == null ? null : f.severity().word())
                    .field("lba", f.where().start() / sectorSize).field("firstByte", f.where().start()).field("length", f.where().length())
                    .field("stored", f.stored()).field("computed", f.computed()).field("what", f.what()).field("means", f.means())
                    .field("advice", f.advice()).field("source", f.source()).field("volume", f.volume()).field("reason", f.reason());
            out.array("missing", f.missing(), m -> out.list(((SectorRange) m).first(), ((SectorRange) m).count()));
            out.field("cause", f.cause()).field("count", f.count());
        });
    }
}
