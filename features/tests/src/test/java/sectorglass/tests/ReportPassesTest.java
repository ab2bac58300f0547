package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.testkit.Tool;

/** The bench's report says what each pass added; the numbers follow from the two read maps. */
class ReportPassesTest {
    @TempDir
    Path folder;

    @Test
    void theBenchReportTellsWhatEachPassAdded() throws Exception {
        Tool.require("mkfs.fat");
        Path card = folder.resolve("card.img");
        Tool.run("mkfs.fat", "-C", "-F", "16", "-s", "1", "--invariant", card.toString(), "8192").ok();
        Path first = Files.writeString(folder.resolve("first.csv"), "0,3000,read\n3000,40,failed\n3040,13344,skipped\n");
        Path second = Files.writeString(folder.resolve("second.csv"), "3000,33,read\n3033,7,failed\n3040,13340,read\n");
        Path to = folder.resolve("report");
        Cli run = Cli.run("report", card, "--pass", first, "--pass", second, "--to", to);
        assertEquals(0, run.status(), run.err());
        String html = Files.readString(to.resolve("bench.html"));
        assertTrue(html.contains("<td><bdi>first.csv</bdi></td><td class=\"n\">3,000</td><td class=\"n\">0</td><td class=\"n\">40</td><td class=\"n\">13,384</td>"), html);
        assertTrue(html.contains("<td><bdi>second.csv</bdi></td><td class=\"n\">13,373</td><td class=\"n\">33</td><td class=\"n\">7</td><td class=\"n\">11</td>"), html);

        Path without = folder.resolve("without");
        assertEquals(0, Cli.run("report", card, "--to", without).status());
        assertFalse(Files.readString(without.resolve("bench.html")).contains("What each pass added"));
    }
}
