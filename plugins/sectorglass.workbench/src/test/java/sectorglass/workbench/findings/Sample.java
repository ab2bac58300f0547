package sectorglass.workbench.findings;

import java.util.List;
import java.util.Map;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.Severity;
import sectorglass.verify.Verdict;

/** Findings for tests. */
final class Sample {

    private Sample() {
    }

    static Finding finding(int id, String check, Severity severity, long at, Integer volume, Integer cause) {
        return new Finding(id, check, severity == null ? Verdict.NOT_CHECKED : Verdict.FAILED, severity, new ByteRange(at, 4),
                new ByteRange(at / 512 * 512, 512), "0x" + id, "0x0", "what " + id, "means " + id, "advice " + id, "source " + id, volume,
                severity == null ? "not read" : null, SectorRanges.EMPTY, cause, 1, Map.of());
    }

    /** Two volumes, two structures, one finding that follows from another. */
    static List<Finding> some() {
        return List.of(finding(1, "mbr.signature", Severity.UNUSABLE, 510, null, null),
                finding(2, "gpt.header.crc32", Severity.AT_RISK, 528, null, null),
                finding(3, "gpt.entries.crc32", Severity.AT_RISK, 600, null, 2),
                finding(4, "fat.boot.copy", Severity.COSMETIC, 1_048_576, 1, null),
                finding(5, "ntfs.record.fixup", null, 2_097_152, 2, null),
                finding(6, "gpt.header.reserved", Severity.COSMETIC, 532, null, null));
    }

    static Findings of(List<Finding> all) {
        return new Findings(all, new Findings.Counts(1, 1, 2, 1, 0));
    }
}
