package sectorglass.workbench.findings;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.recovery.AcceptedFindings;
import sectorglass.recovery.Job;
import sectorglass.report.FindingsJson;
import sectorglass.report.JsonOut;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.Severity;
import sectorglass.verify.Verdict;

class FindingsExportTest {
    private static final AcceptedFindings ACCEPTED = new AcceptedFindings(
            List.of(new Job.Accepted(Instant.parse("2026-01-02T03:04:05Z"), "lab", "x", 1024L, "so it is")));
    private final Findings findings = Sample.of(Sample.some());

    @Test
    void jsonOfAllFindingsIsThatOfVerify() {
        ByteArrayOutputStream verify = new ByteArrayOutputStream();
        try (JsonOut out = new JsonOut(verify)) {
            FindingsJson.write(out, findings, 512, false, ACCEPTED); // as the command calls it
        }
        ByteArrayOutputStream exported = new ByteArrayOutputStream();
        FindingsExport.json(exported, findings.listed(), findings, 512, ACCEPTED);
        assertArrayEquals(verify.toByteArray(), exported.toByteArray());
    }

    @Test
    void csvHasOneLinePerFindingAndQuotesByRfc4180() throws IOException {
        Finding odd = new Finding(7, "x", Verdict.FAILED, Severity.COSMETIC, new ByteRange(1024, 1), null, "a \"b\", c", "=1+1", "two\nlines",
                null, null, "s", null, null, SectorRanges.EMPTY, null, 1, Map.of());
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        FindingsExport.csv(out, List.of(odd), 512, ACCEPTED);
        assertEquals("id,check,verdict,severity,lba,firstByte,length,stored,computed,what,means,advice,source,volume,reason,cause,count,accepted\r\n"
                + "7,\"x\",\"failed\",\"cosmetic\",2,1024,1,\"a \"\"b\"\", c\",\"'=1+1\",\"two\nlines\",,,\"s\",,,,1,\"2026-01-02T03:04:05Z lab: so it is\"\r\n",
                out.toString(StandardCharsets.UTF_8));
    }

    @Test
    void theImageIsNeverWritten(@TempDir Path folder) throws IOException {
        Path image = Files.write(folder.resolve("disk.csv"), new byte[] {1, 2, 3});
        assertThrows(IOException.class, () -> FindingsExport.write(image, findings.listed(), findings, 512, ACCEPTED, image));
        assertArrayEquals(new byte[] {1, 2, 3}, Files.readAllBytes(image));
    }

    @Test
    void theEndingOfTheNameChoosesTheForm(@TempDir Path folder) throws IOException {
        FindingsExport.write(folder.resolve("f.JSON"), findings.listed(), findings, 512, ACCEPTED, null);
        FindingsExport.write(folder.resolve("f.csv"), findings.listed(), findings, 512, ACCEPTED, null);
        assertTrue(Files.readString(folder.resolve("f.JSON")).startsWith("{\"findings\":[{\"id\":1,"));
        assertEquals(6, Files.readAllLines(folder.resolve("f.csv")).size());
        try (var files = Files.list(folder)) {
            assertEquals(2, files.count(), "nothing is left over");
        }
    }
}
