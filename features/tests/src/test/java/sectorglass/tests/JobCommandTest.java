package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import com.fasterxml.jackson.databind.JsonNode;

import sectorglass.make.Demo;

/** What a job records: accepted findings, which verify then names, and approvals. */
class JobCommandTest {
    @TempDir
    Path folder;

    @Test
    void anAcceptedFindingIsNamedUntilItIsWithdrawn() throws IOException {
        Path image = Demo.write(folder, Demo.Variant.GPT).image();
        Path job = folder.resolve("job.json");
        int before = Cli.run("verify", image, "--json").status();
        assertEquals(0, Cli.run("job", job, "--accept", "gpt.entries.crc32", "--who", "bench 3", "--note", "known").status());
        Cli told = Cli.run("verify", image, "--json", "--job", job);
        assertEquals(before, told.status(), "accepting settles nothing");
        int accepted = 0;
        for (JsonNode finding : told.json().get("findings")) {
            if (finding.get("accepted").isNull()) {
                continue;
            }
            accepted++;
            assertEquals("gpt.entries.crc32", finding.get("check").asText());
            assertEquals("bench 3", finding.get("accepted").get("who").asText());
            assertEquals("known", finding.get("accepted").get("note").asText());
        }
        assertEquals(1, accepted);
        assertTrue(Cli.run("verify", image, "--job", job).out().contains("by bench 3, "));
        assertEquals(2, Cli.run("job", job, "--withdraw", "gpt.entries.crc32=600").status(), "it was accepted everywhere, not there");
        assertEquals(0, Cli.run("job", job, "--withdraw", "gpt.entries.crc32", "--note", "wrong disk").status());
        for (JsonNode finding : Cli.run("verify", image, "--json", "--job", job).json().get("findings")) {
            assertTrue(finding.get("accepted").isNull(), finding.toString());
        }
        String log = Cli.run("job", job).out();
        assertTrue(log.contains("accepted finding gpt.entries.crc32: known") && log.contains("acceptance withdrawn: gpt.entries.crc32: wrong disk"), log);
    }

    @Test
    void anApprovalSaysHowItCame() throws IOException {
        Path job = folder.resolve("job.json");
        assertEquals(2, Cli.run("job", job, "--how", "by telephone").status());
        assertTrue(Files.notExists(job));
        Cli said = Cli.run("job", job, "--approved-by", "2026-117", "--how", "by telephone", "--note", "all", "--json");
        JsonNode approval = said.json().get("approvals").get(0);
        assertEquals("by telephone", approval.get("how").asText());
        assertEquals("all", approval.get("note").asText());
    }
}
