package sectorglass.report;

import java.util.List;

import sectorglass.image.SectorRange;
import sectorglass.recovery.AcceptedFindings;
import sectorglass.recovery.Job;
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
     * @param accepted those that somebody accepted as they are
     */
    public static void write(JsonOut out, Findings findings, int sectorSize, boolean all, AcceptedFindings accepted) {
        List<Finding> shown = all ? findings.all() : findings.listed();
        out.object(() -> {
            out.array("findings", shown, f -> finding(out, (Finding) f, sectorSize, accepted.of((Finding) f)));
            Findings.Counts counts = findings.counts();
            out.object("counts", () -> out.field("unusable", counts.unusable()).field("atRisk", counts.atRisk())
                    .field("cosmetic", counts.cosmetic()).field("notChecked", counts.notChecked()).field("passed", counts.passed()));
        }).line();
    }

    private static void finding(JsonOut out, Finding f, int sectorSize, Job.Accepted accepted) {
        out.object(() -> {
            out.field("id", f.id()).field("check", f.check()).field("verdict", f.verdict().word())
                    .field("severity", f.severity() == null ? null : f.severity().word())
                    .field("lba", f.where().start() / sectorSize).field("firstByte", f.where().start()).field("length", f.where().length())
                    .field("stored", f.stored()).field("computed", f.computed()).field("what", f.what()).field("means", f.means())
                    .field("advice", f.advice()).field("source", f.source()).field("volume", f.volume()).field("reason", f.reason());
            out.array("missing", f.missing(), m -> out.list(((SectorRange) m).first(), ((SectorRange) m).count()));
            out.field("cause", f.cause()).field("count", f.count());
            if (accepted == null) {
                out.field("accepted", (String) null);
            } else {
                out.object("accepted", () -> out.field("at", String.valueOf(accepted.at())).field("who", accepted.who()).field("note", accepted.note()));
            }
        });
    }
}
