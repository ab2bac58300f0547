package sectorglass.report.delivery;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.text.Normalizer;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Properties;
import java.util.stream.Stream;

import nu.validator.validation.SimpleDocumentValidator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.xml.sax.ErrorHandler;
import org.xml.sax.InputSource;
import org.xml.sax.SAXParseException;

import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.recovery.Job;
import sectorglass.report.document.Block;
import sectorglass.report.document.Html;
import sectorglass.testkit.Tool;
import sectorglass.verify.Finding;
import sectorglass.verify.Severity;
import sectorglass.verify.Verdict;

class ReportsTest {
    private static final String MARKUP = "<script>alert(1)</script> & \"x\" 'y' <img src=x onerror=z>.jpg";
    private static final String HEBREW = "\u05E9\u05DC\u05D5\u05DD \u05E2\u05D5\u05DC\u05DD (1).txt";
    private static final String ARABIC = "\u0633\u0644\u0627\u0645.doc";
    private static final String CHINESE = "\u5A5A\u793C\u7167\u7247 \u65E5\u672C\u8A9E\u306E\u540D\u524D \uD55C\uAE00.jpg";

    @TempDir
    Path folder;

    private static Shelf nasty() {
        return new Shelf("J\u00FCrgen \u017B\u00F3\u0142\u0107").file(MARKUP, 90_000, 5000, 700).file(HEBREW, 500, 0, 20).file(ARABIC, 70_000, 69_990, 10).file(CHINESE, 12_345, 6000, 1)
                .file("=cmd|' /C calc'!A0.csv", 10, 0, 10).file("escape\u001B[31m\u202Ereversed.txt", 100, 0, 0).file("emoji \uD83D\uDE00.png", 400, 0, 400)
                .file("x".repeat(240) + ".bin", 77, 0, 0).file("whole file.pdf", 1_500_000, 0, 0);
    }

    private Path write(Shelf shelf, Locale locale) throws IOException {
        Path to = folder.resolve(locale.getLanguage());
        Reports.write(shelf.input(locale, List.of()), to, Progress.NONE);
        return to;
    }

    private static List<String> problems(Path html) throws Exception {
        List<String> problems = new ArrayList<>();
        ErrorHandler handler = new ErrorHandler() {
            @Override
            public void warning(SAXParseException e) {
                problems.add("warning " + e.getMessage());
            }

            @Override
            public void error(SAXParseException e) {
                problems.add("line " + e.getLineNumber() + ": " + e.getMessage());
            }

            @Override
            public void fatalError(SAXParseException e) {
                error(e);
            }
        };
        SimpleDocumentValidator validator = new SimpleDocumentValidator(true, false, false);
        validator.setUpMainSchema("http://s.validator.nu/html5-rdfalite.rnc", handler);
        validator.setUpValidatorAndParsers(handler, true, false);
        validator.checkHtmlInputSource(new InputSource(new ByteArrayInputStream(Files.readAllBytes(html))));
        return problems;
    }

    @Test
    void everyPageIsValidHtmlInBothLanguagesWhateverTheNames() throws Exception {
        for (Locale locale : List.of(Locale.ENGLISH, Locale.GERMAN)) {
            Path to = write(nasty(), locale);
            List<Path> pages;
            try (Stream<Path> all = Files.walk(to)) {
                pages = all.filter(p -> p.toString().endsWith(".html")).toList();
            }
            assertEquals(3, pages.size());
            for (Path page : pages) {
                assertEquals(List.of(), problems(page), page.toString());
                String html = Files.readString(page);
                assertFalse(html.contains("<script") || html.contains("<img") || html.contains("<b>") || html.contains("\u001B") || html.contains("\u202E"), page.toString());
                assertFalse(html.contains("http://") || html.contains("https://"), "nothing from outside");
            }
        }
    }

    @Test
    void theValidatorFindsWhatIsWrong() throws Exception {
        Path page = folder.resolve("bad.html");
        Files.writeString(page, "<!DOCTYPE html><html lang=en><title>x</title><table><tr><p>");
        assertFalse(problems(page).isEmpty());
    }

    @Test
    void aPageWithPicturesIsValidHtmlWhateverTheirNames() throws Exception {
        Path page = folder.resolve("pictures.html");
        try (Html html = new Html(page, "Pictures", Locale.ENGLISH)) {
            html.add(new Block.Title("Pictures", List.of("below")));
            html.add(new Block.Pictures(List.of(new Block.Picture(MARKUP, new byte[] {1, 2, 3}, 160, 90), new Block.Picture(HEBREW, new byte[] {4}, 1, 1))));
        }
        assertEquals(List.of(), problems(page));
        String html = Files.readString(page);
        assertEquals(3, html.split("<img src=\"data:image/jpeg;base64,", -1).length, "the markup in a name stays text");
        assertFalse(html.contains("<script") || html.contains("<img src=x"));
    }

    @Test
    void thePdfIsValidAndItsTextCanBeReadInAllScripts() throws IOException {
        Tool.require("qpdf", "pdfinfo", "pdftotext");
        Path pdf = write(nasty(), Locale.ENGLISH).resolve("customer.pdf");
        Tool.Result check = Tool.run("qpdf", "--check", pdf.toString());
        assertEquals(0, check.status(), check.out());
        assertTrue(Tool.run("pdfinfo", pdf.toString()).ok().contains("What was recovered"));
        String text = Normalizer.normalize(Tool.run("pdftotext", "-layout", pdf.toString(), "-").ok(), Normalizer.Form.NFKC);
        assertTrue(text.contains("Of 9 files (1.7 MB), 3 came back whole"), text);
        assertTrue(text.contains("Files that are not whole"), "no ligatures: " + text);
        for (String part : List.of("<script>alert(1)<\\u{2F}script>", "\u5A5A\u793C\u7167\u7247", "\u65E5\u672C\u8A9E", "\uD55C\uAE00", "J\u00FCrgen", "\u017B\u00F3\u0142\u0107")) {
            assertTrue(text.contains(part), part + " in " + text);
        }
        assertTrue(text.contains("\u05E9\u05DC\u05D5\u05DD"), "Hebrew in reading order: " + text);
        assertTrue(text.contains("\u0633\u0644\u0627\u0645"), "Arabic in reading order: " + text);
        assertTrue(Tool.run("pdffonts", pdf.toString()).ok().lines().skip(2).allMatch(line -> line.contains(" yes yes ")), "embedded subsets");
    }

    @Test
    void germanReportsAreGermanToTheDate() throws IOException {
        Path to = write(nasty(), Locale.GERMAN);
        String html = Files.readString(to.resolve("customer.html"));
        assertTrue(html.contains("Von 9 Dateien (1,7\u00A0MB) sind 3 ganz zur\u00FCckgekommen"), html);
        assertTrue(html.contains("3. Februar 2026"));
        assertTrue(html.contains("Zeichen 2026-117"));
    }

    @Test
    void approvalsAndAcceptedFindingsStandInTheReports() throws Exception {
        Instant at = Instant.parse("2026-02-01T09:00:00Z");
        Job job = Job.empty().withApproval(new Job.Approval(at, "lab", "2026-117", "by telephone", "all <but> the damaged ones"))
                .withAccepted(new Job.Accepted(at, "lab", "mbr.signature", 510L, "the customer overwrote it"));
        Finding finding = new Finding(1, "mbr.signature", Verdict.FAILED, Severity.UNUSABLE, new ByteRange(510, 2), null, "00 00", "55 AA", "No signature.", "", "", "UEFI",
                null, null, SectorRanges.EMPTY, null, 1, Map.of());
        Path to = folder.resolve("approved");
        Reports.write(nasty().input(Locale.ENGLISH, job, List.of(finding)), to, Progress.NONE);
        String customer = Files.readString(to.resolve("customer.html"));
        assertTrue(customer.contains("Received on February 1, 2026: approval by 2026-117, by telephone: all &lt;but&gt; the damaged ones."), customer);
        assertFalse(customer.contains("the customer overwrote it"), "findings are the bench's");
        String bench = Files.readString(to.resolve("bench.html"));
        assertTrue(bench.contains("unusable, accepted"), bench);
        assertTrue(bench.contains("Findings accepted as they are") && bench.contains("the customer overwrote it"), bench);
        assertTrue(bench.contains("Approvals received") && bench.contains("by telephone"), bench);
        assertEquals(List.of(), problems(to.resolve("customer.html")));
        assertEquals(List.of(), problems(to.resolve("bench.html")));
    }

    @Test
    void theTableOfAllFilesIsSafeForSpreadsheetsAndHoldsEveryFile() throws IOException {
        Path to = write(nasty(), Locale.ENGLISH);
        List<String> lines = Files.readAllLines(to.resolve("files.csv"));
        assertEquals(10, lines.size());
        assertTrue(lines.get(1).startsWith("1,\"J\u00FCrgen"), "damaged ones first: " + lines.get(1));
        assertTrue(lines.stream().allMatch(line -> line.startsWith("1,") || line.startsWith("volume,")));
        assertTrue(lines.stream().anyMatch(line -> line.contains(",90000,89300,damaged,5000+700:middle,")), lines.toString());
        assertTrue(lines.stream().anyMatch(line -> line.contains(",70000,69990,damaged,69990+10:tail,")), lines.toString());
        assertEquals("'=1+1", FileLists.cell("=1+1"));
        assertThrows(FileAlreadyExistsException.class, () -> write(nasty(), Locale.ENGLISH));
    }

    @Test
    void aHundredThousandFilesFitTheBounds() throws IOException {
        Shelf shelf = new Shelf("Many");
        for (int i = 0; i < 100_000; i++) {
            shelf.file("file number " + i + ".jpg", 1000 + i, 0, i % 20 == 0 ? 500 : 0);
        }
        long before = System.nanoTime();
        Path to = write(shelf, Locale.ENGLISH);
        double seconds = (System.nanoTime() - before) / 1e9;
        assertTrue(Files.exists(to.resolve("files/files-0100.html")));
        assertFalse(Files.exists(to.resolve("files/files-0101.html")));
        assertEquals(100_001, Files.readAllLines(to.resolve("files.csv")).size());
        assertTrue(Files.readString(to.resolve("customer.html")).contains("The first 2,000 of 5,000"));
        assertTrue(seconds < 120, seconds + " s; 30 s are meant on a machine that does nothing else");
    }

    @Test
    void bothLanguagesHaveTheSameTexts() throws IOException {
        Properties english = new Properties();
        Properties german = new Properties();
        english.load(ReportsTest.class.getResourceAsStream("texts.properties"));
        german.load(ReportsTest.class.getResourceAsStream("texts_de.properties"));
        assertEquals(english.keySet(), german.keySet());
        assertTrue(english.values().stream().noneMatch(text -> text.toString().contains("'")), "an apostrophe would be swallowed");
    }
}
