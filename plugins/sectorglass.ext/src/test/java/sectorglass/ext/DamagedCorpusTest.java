package sectorglass.ext;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.testkit.Corpus;
import sectorglass.testvolumes.DiskFile;
import sectorglass.testvolumes.Judged;
import sectorglass.verify.Finding;
import sectorglass.verify.Verdict;

/**
 * Damaged volumes of the test suite of e2fsprogs, against the table docs/ext-damaged.md. Of an image that is not in the table it is asked
 * that something is reported where the expected text ends with another status than 0, and nothing where it ends with 0.
 */
class DamagedCorpusTest {
    @TempDir
    Path folder;

    private record Row(String check, String words) { }

    @TestFactory
    Stream<DynamicTest> everyImageIsReported() throws IOException {
        if (!Corpus.present()) {
            return Stream.of(DynamicTest.dynamicTest("corpus", () -> Corpus.folder("ext-damaged")));
        }
        Map<String, Row> rows = table();
        try (Stream<Path> files = Files.list(Corpus.folder("ext-damaged"))) {
            List<Path> images = files.filter(p -> p.getFileName().toString().contains(".img")).sorted().toList();
            assertFalse(images.isEmpty(), "images in the corpus");
            return images.stream().map(p -> DynamicTest.dynamicTest(name(p), () -> compare(p, rows)));
        }
    }

    private static Map<String, Row> table() throws IOException {
        Map<String, Row> rows = new TreeMap<>();
        for (String line : Files.readAllLines(Path.of(System.getProperty("house"), "docs", "ext-damaged.md"))) {
            String[] cells = line.split("\\|");
            if (cells.length == 4 && cells[1].strip().startsWith("f_")) {
                rows.put(cells[1].strip(), new Row(cells[2].strip().replace("`", ""), cells[3].strip()));
            }
        }
        return rows;
    }

    private static String name(Path image) {
        return image.getFileName().toString().replaceFirst("\\.img.*", "");
    }

    private void compare(Path packed, Map<String, Row> rows) throws IOException {
        String name = name(packed);
        Row row = rows.get(name);
        Path text = packed.resolveSibling(name + ".expected");
        String expected = Files.exists(text) ? new String(Files.readAllBytes(text), StandardCharsets.UTF_8) : null;
        try (DiskFile image = DiskFile.of(Corpus.unpack(packed, folder))) {
            Judged judged = Forced.full(image);
            List<String> failed = judged.findings().all().stream().filter(f -> f.verdict() == Verdict.FAILED).map(Finding::check).toList();
            if (row == null) {
                boolean sound = expected != null && expected.contains("Exit status is 0");
                assertEquals(sound, failed.isEmpty(), () -> "not in the table; the expected text says\n" + expected + "\n" + judged.text());
                return;
            }
            if (row.check().equals("–")) {
                assertEquals(List.of(), failed, judged.text());
                return;
            }
            assertTrue(failed.contains(row.check()), () -> row.check() + " is not among\n" + judged.text());
            assertTrue(expected == null ? row.words().startsWith("–") : expected.contains(row.words()),
                    () -> "the expected text does not say: " + row.words());
        }
    }
}
