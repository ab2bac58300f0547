package sectorglass.practice.lesson;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

import sectorglass.image.ByteRange;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;

/** Holds docs/lessons to the data; {@code -Dwrite.docs=true} writes the pages. */
class LessonPagesTest {
    private static final Lessons LESSONS = MadeDisks.LESSONS;

    @ParameterizedTest
    @ValueSource(strings = {"en", "de"})
    void pagesSayWhatTheLessonsSay(String language) throws Exception {
        Locale locale = Locale.forLanguageTag(language);
        LessonPage page = new LessonPage(locale);
        Map<String, String> wanted = new TreeMap<>();
        wanted.put("README.md", page.contents(LESSONS.all()));
        wanted.put("glossary.md", page.glossary(LESSONS.glossary()));
        for (Lesson lesson : LESSONS.all()) {
            try (LessonRun run = MadeDisks.run(lesson, locale)) {
                wanted.put(LessonPage.fileName(lesson), page.lesson(run));
            }
        }
        Path docs = Path.of(System.getProperty("house"), "docs", "lessons", language);
        if (Boolean.getBoolean("write.docs")) {
            write(docs, wanted);
        }
        Map<String, String> there = new TreeMap<>();
        for (Path file : files(docs).toList()) {
            there.put(file.getFileName().toString(), Files.readString(file));
        }
        assertEquals(wanted.keySet(), there.keySet(), "files in docs/lessons/" + language + "; -Dwrite.docs=true writes them");
        for (Map.Entry<String, String> one : wanted.entrySet()) {
            assertEquals(one.getValue(), there.get(one.getKey()), "docs/lessons/" + language + "/" + one.getKey() + "; -Dwrite.docs=true writes it");
        }
    }

    private static Stream<Path> files(Path docs) throws IOException {
        try (Stream<Path> files = Files.list(docs)) {
            return files.sorted().collect(Collectors.toList()).stream();
        }
    }

    private static void write(Path docs, Map<String, String> pages) throws IOException {
        Files.createDirectories(docs);
        for (Path old : files(docs).toList()) {
            Files.delete(old);
        }
        for (Map.Entry<String, String> page : pages.entrySet()) {
            Files.writeString(docs.resolve(page.getKey()), page.getValue());
        }
    }

    @Test
    void bytesStandInRowsWithTheirPlaceInBrackets() throws Exception {
        Lesson unread = LESSONS.find("what-is-unread").orElseThrow();
        LessonDisk disk = MadeDisks.of(unread);
        try (OpenImage image = Images.open(disk.image(), sectorglass.image.OpenOptions.DEFAULT.withReadMap(disk.readMap()))) {
            String mark = new HexExcerpt(image, new ByteRange(510, 2)).rows();
            assertTrue(mark.endsWith("\n1F0   00 00 00 00 00 00 00 00 00 00 00 00 00 00[55 AA]  ..............U.\n"), "UEFI 2.10, section 5.2.3: 55 AA: " + mark);
            assertTrue(mark.startsWith("LBA 0\n1E0   "), "the row before stands in the same sector: " + mark);
            String skipped = new HexExcerpt(image, new ByteRange(65535L * 512, 512)).rows();
            assertTrue(skipped.startsWith("LBA 65535\n000  [·· ··"), skipped);
            assertEquals(6, skipped.lines().count(), "an LBA, four rows, and a sign that there are more");
        }
    }
}
