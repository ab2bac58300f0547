package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.testkit.Tool;

/** Runs the script of docs/from-disk-to-delivery.md as it stands there, with the assembled product, and counts again what the reports say. */
class DeliveryTest {
    private static final Path HOUSE = Path.of(System.getProperty("house"));

    @TempDir
    static Path folder;

    @BeforeAll
    static void runTheScript() throws IOException {
        Tool.require("sh", "awk", "find", "du");
        StringBuilder script = new StringBuilder();
        boolean on = false;
        for (String line : Files.readAllLines(HOUSE.resolve("docs/from-disk-to-delivery.md"))) {
            if (line.startsWith("```")) {
                on = line.equals("```sh");
            } else if (on) {
                script.append(line).append('\n');
            }
        }
        assertTrue(script.length() > 500, "the page holds no script");
        Path file = Files.writeString(folder.resolve("script.sh"), "cd '" + folder + "'\n" + script);
        Tool.Result result = Tool.run(Map.of("PATH", HOUSE.resolve("features/product/target/sectorglass") + ":" + System.getenv("PATH")), null, 600,
                "sh", file.toString());
        assertEquals(0, result.status(), result.out());
    }

    private static String customer() throws IOException {
        return Files.readString(folder.resolve("report/customer.html"));
    }

    private static String shell(String command) {
        return Tool.run("sh", "-c", "cd '" + folder + "' && " + command).ok().strip();
    }

    @Test
    void theCustomersNumbersAreThoseOfFindAndDu() throws IOException {
        long found = Long.parseLong(shell("find return -type f ! -name manifest.csv | wc -l"));
        long bytes = Long.parseLong(shell("find return -type f ! -name manifest.csv -print0 | du -b -c --files0-from=- | tail -1 | cut -f1"));
        Matcher sentence = Pattern.compile("Of ([\\d,]+) files \\(([^)]*)\\), ([\\d,]+) came back whole").matcher(customer());
        assertTrue(sentence.find(), customer());
        assertEquals(found, number(sentence.group(1)));
        assertEquals(String.format(java.util.Locale.ROOT, "%.1f\u00A0MB", bytes / 1e6), sentence.group(2));
        long complete = 0;
        for (int volume = 1; volume <= 4; volume++) {
            complete += Files.readAllLines(folder.resolve("return/" + volume + "/manifest.csv")).stream().filter(l -> l.contains(",complete,")).count();
        }
        assertEquals(complete, number(sentence.group(3)));
    }

    private static long number(String text) {
        return Long.parseLong(text.replace(",", ""));
    }

    @Test
    void theListHoldsEveryFileWithItsTrueLength() throws IOException {
        Map<String, Long> listed = new java.util.TreeMap<>();
        for (String line : Files.readAllLines(folder.resolve("report/files.csv")).subList(1, Files.readAllLines(folder.resolve("report/files.csv")).size())) {
            List<String> cells = cells(line);
            listed.put(cells.get(0) + "/" + cells.get(1), Long.parseLong(cells.get(2)));
        }
        Map<String, Long> there = new java.util.TreeMap<>();
        try (Stream<Path> all = Files.walk(folder.resolve("return"))) {
            for (Path file : all.filter(f -> Files.isRegularFile(f) && !f.endsWith("manifest.csv")).toList()) {
                there.put(folder.resolve("return").relativize(file).toString(), Files.size(file));
            }
        }
        assertEquals(there, listed);
    }

    private static List<String> cells(String line) {
        List<String> cells = new ArrayList<>();
        Matcher cell = Pattern.compile("(\"(?:[^\"]|\"\")*\"|[^,]*)(?:,|$)").matcher(line);
        while (cell.find() && cells.size() < 12) {
            cells.add(cell.group(1).startsWith("\"") ? cell.group(1).substring(1, cell.group(1).length() - 1).replace("\"\"", "\"") : cell.group(1));
        }
        return cells;
    }

    @Test
    void hashesOfTheManifestAreThoseOfTheUtility() throws IOException {
        Tool.require("sha256sum");
        List<String> sums = new ArrayList<>();
        for (String line : Files.readAllLines(folder.resolve("return/2/manifest.csv"))) {
            List<String> cells = cells(line);
            if (cells.get(4).length() == 64) {
                sums.add(cells.get(4) + "  return/2/" + cells.get(2));
            }
        }
        assertEquals(16, sums.size());
        Files.write(folder.resolve("sums"), sums);
        shell("sha256sum -c --quiet sums");
    }

    @Test
    void thePlanShrankToWhatFailedAndEachPassSaysWhatItAdded() throws IOException {
        String plan = Files.readString(folder.resolve("plan-2.txt"));
        assertTrue(plan.contains("Pass first.csv: added 458\u2009498 sectors (0 that had failed before), failed 126"), plan);
        assertTrue(plan.contains("Pass second.csv: added 280 sectors (118 that had failed before), failed 8"), plan);
        assertTrue(plan.contains("third pass") && plan.contains("To read: 8 of"), plan);
    }

    @Test
    void theWantedListIsAnsweredAndTheOneDamagedPictureNamed() throws IOException {
        String html = customer();
        assertTrue(html.contains("Found: 296 complete, 1 damaged, 0 lost."), html);
        assertTrue(html.contains("Not on the disk: its table of contents was read in full."), html);
        assertTrue(html.contains("FRM_0207.JPG"), html);
        assertTrue(Files.readString(folder.resolve("wanted.txt")).contains("found and damaged: 297 files"));
        assertTrue(Files.readString(folder.resolve("return/4/manifest.csv")).lines().anyMatch(l -> l.contains("FRM_0207.JPG") && l.contains(",0+4096,") && l.contains(",damaged,")));
    }

    @Test
    void picturesThatOpenedHereOpenElsewhere() throws IOException {
        Tool.require("identify");
        int tried = 0;
        for (String line : Files.readAllLines(folder.resolve("return/2/manifest.csv"))) {
            if (line.contains(",opened,jpeg,")) {
                Tool.Result result = Tool.run("identify", "-regard-warnings", folder.resolve("return/2").resolve(cells(line).get(2)).toString());
                assertEquals(0, result.status(), result.out());
                tried++;
            }
        }
        assertEquals(12, tried);
    }

    @Test
    void everyFileWasReadBackAndTheJobKnowsWhatHappened() throws IOException {
        assertTrue(Files.readAllLines(folder.resolve("readback.txt")).stream().allMatch(l -> l.contains(" files are as written")));
        String job = Files.readString(folder.resolve("job.json"));
        assertTrue(job.contains("\"approvals\"") && job.contains("report merged.img: status 0") && job.contains("approval by 2026-117"), job);
    }

    @Test
    void thePdfIsSoundAndSaysTheSame() {
        Tool.require("qpdf", "pdftotext");
        assertEquals(0, Tool.run("qpdf", "--check", folder.resolve("report/customer.pdf").toString()).status());
        String text = Tool.run("pdftotext", "-layout", folder.resolve("report/customer.pdf").toString(), "-").ok();
        assertTrue(text.contains("Of 345 files") && text.contains("344 came back whole"), text);
    }
}
