package sectorglass.filetest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;

import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.FileState;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.recovery.opening.FileTests;
import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.opening.TestResult.Answer;
import sectorglass.testkit.Tool;

class FileTestsTest {
    @TempDir
    static Path folder;
    private static Map<String, byte[]> samples;
    private static final FileTests TESTS = FileTests.ofProviders();

    @BeforeAll
    static void make() throws IOException {
        samples = Samples.make(folder);
    }

    private static TestResult test(String name, byte[] bytes) {
        return TESTS.test(name, new MemoryContent(bytes), FileState.COMPLETE, Progress.NONE);
    }

    @Test
    void aTruncatedJpegThatADecoderWouldShowIsDamaged() {
        byte[] whole = samples.get("picture.jpg");
        assertEquals(Answer.OPENED, test("a.jpg", whole).answer());
        for (int keep : new int[] {whole.length - 2, whole.length * 3 / 4, whole.length / 2, 2000}) {
            assertEquals(Answer.DAMAGED, test("a.jpg", Arrays.copyOf(whole, keep)).answer(), keep + " of " + whole.length);
        }
    }

    @Test
    void everyKindThatIsCutShortIsDamaged() {
        samples.forEach((name, whole) -> {
            TestResult result = test(name, Arrays.copyOf(whole, whole.length / 2));
            boolean noEnd = name.endsWith(".txt") || name.endsWith(".bmp");
            assertTrue(result.answer() == Answer.DAMAGED || noEnd, () -> name + ": " + result);
        });
    }

    @Test
    void aFileOfWhichSomethingWasNotReadIsNeverGood() {
        samples.forEach((name, whole) -> {
            MemoryContent partly = new MemoryContent(whole, new ByteRange(whole.length - 20, 7));
            TestResult result = TESTS.test(name, partly, FileState.DAMAGED, Progress.NONE);
            assertEquals(Answer.DAMAGED, result.answer(), name);
            assertTrue(result.sentence(Locale.ENGLISH).startsWith("7 bytes of it were not read"), result.sentence(Locale.ENGLISH));
        });
    }

    @Test
    void contentCountsMoreThanTheName() {
        TestResult result = test("holiday.jpg", samples.get("picture.png"));
        assertEquals("png", result.type().id());
        assertFalse(result.nameFits());
        assertTrue(result.sentence(Locale.GERMAN).contains("der Inhalt ist PNG"), result.sentence(Locale.GERMAN));
        byte[] noise = new byte[5000];
        new Random(1).nextBytes(noise);
        assertEquals("test.beginning", test("holiday.jpg", noise).reason());
        assertEquals(Answer.NOT_TESTED, test("holiday.xyz", noise).answer());
        assertNull(test("holiday.xyz", noise).type());
    }

    @Test
    void encryptedElsewhereAndEmptyFilesAreNotTested() {
        byte[] png = samples.get("picture.png");
        assertEquals("test.encrypted", TESTS.test("a.png", new MemoryContent(png), FileState.ENCRYPTED, Progress.NONE).reason());
        assertEquals("test.elsewhere", TESTS.test("a.png", new MemoryContent(png), FileState.ELSEWHERE, Progress.NONE).reason());
        assertEquals("test.empty", test("a.png", new byte[0]).reason());
    }

    @Test
    void archivesAgreeWithUnzipAndProtectedOnesAreNotTested() throws IOException {
        Tool.require("unzip", "zip");
        for (int at : new int[] {-1, 50, 5000, 20_000}) {
            byte[] bytes = samples.get("papers.zip").clone();
            if (at >= 0) {
                bytes[at] ^= 0x10;
            }
            Path file = Files.write(folder.resolve("check.zip"), bytes);
            boolean good = Tool.run("unzip", "-tqq", file.toString()).status() == 0;
            assertEquals(good, test("check.zip", bytes).answer() == Answer.OPENED, "byte " + at);
        }
        Path locked = folder.resolve("locked.zip");
        Files.write(folder.resolve("plain.txt"), samples.get("notes.txt"));
        Tool.run("zip", "-j", "-P", "secret", locked.toString(), folder.resolve("plain.txt").toString()).ok();
        assertEquals("test.password", test("locked.zip", Files.readAllBytes(locked)).reason());
    }

    @Test
    void databasesAgreeWithTheirOwnCheck() throws IOException {
        Tool.require("sqlite3");
        byte[] sound = samples.get("orders.sqlite");
        Random random = new Random(3);
        int both = 0;
        for (int i = 0; i < 12; i++) {
            byte[] hurt = sound.clone();
            Arrays.fill(hurt, random.nextInt(sound.length - 4096), hurt.length, (byte) 0);
            Path file = Files.write(folder.resolve("hurt.sqlite"), hurt);
            boolean theirs = Tool.run("sqlite3", file.toString(), "pragma integrity_check").out().strip().equals("ok");
            boolean ours = test("hurt.sqlite", hurt).answer() != Answer.DAMAGED;
            assertTrue(theirs || !ours, "sqlite3 finds damage that was not found here, round " + i);
            both += ours ? 0 : 1;
        }
        assertTrue(both >= 10, "found " + both);
    }

    @Test
    void hostileBytesEndInAnAnswerInTime() {
        Random random = new Random(11);
        assertTimeoutPreemptively(Duration.ofSeconds(120), () -> samples.forEach((name, whole) -> {
            for (int i = 0; i < 12; i++) {
                byte[] hurt = whole.clone();
                for (int k = 0; k < 12; k++) {
                    hurt[random.nextInt(Math.min(hurt.length, i % 2 == 0 ? 600 : hurt.length))] = (byte) (random.nextBoolean() ? 0xFF : random.nextInt());
                }
                test(name, hurt);
            }
        }));
    }

    @Test
    void aTestThatTakesTooLongSaysSo() {
        FileTests none = new FileTests(List.of(new ImageFiles(), new Archives()), 0);
        assertEquals("test.time", none.test("a.gz", new MemoryContent(samples.get("papers.gz")), FileState.COMPLETE, Progress.NONE).reason());
        assertEquals("test.time", none.test("a.jpg", new MemoryContent(samples.get("picture.jpg")), FileState.COMPLETE, Progress.NONE).reason());
    }

    @Test
    void everyTypeHasTextsInBothLanguages() {
        for (String name : samples.keySet()) {
            assertTrue(TESTS.types().stream().anyMatch(t -> t.endings().contains(name.substring(name.indexOf('.') + 1))), name);
        }
    }

    /** Files of the format's own encoder, and its own judgement of them. */
    @Test
    void soundAgreesWithItsOwnEncoder() throws IOException {
        Tool.require("flac");
        Path wave = Files.write(folder.resolve("sound.wav"), samples.get("sound.wav"));
        for (String level : List.of("-0", "-8")) {
            Path file = folder.resolve("own.flac");
            Tool.run("flac", "-s", "-f", level, "-o", file.toString(), wave.toString()).ok();
            byte[] whole = Files.readAllBytes(file);
            assertEquals(Answer.OPENED, test("own.flac", whole).answer(), () -> test("own.flac", whole).sentence(Locale.ENGLISH));
            Random random = new Random(9);
            for (int i = 0; i < 8; i++) {
                byte[] hurt = whole.clone();
                hurt[hurt.length / 8 * i + random.nextInt(hurt.length / 10)] ^= 0x20;
                Path other = Files.write(folder.resolve("hurt.flac"), hurt);
                boolean theirs = Tool.run("flac", "-s", "-t", other.toString()).status() == 0;
                assertTrue(theirs || test("hurt.flac", hurt).answer() == Answer.DAMAGED, level + ", round " + i);
            }
            assertEquals(Answer.DAMAGED, test("own.flac", Arrays.copyOf(whole, whole.length - 3)).answer());
        }
    }
}
