package sectorglass.make;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;

import javax.imageio.ImageIO;
import javax.sound.sampled.AudioSystem;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

import sectorglass.make.content.FileContent;
import sectorglass.testkit.Tool;

/** Contents against readers of the JDK and of other programs. */
class ContentTest {
    @TempDir
    private Path folder;

    private static byte[] content(ContentKind kind, long bytes) throws IOException {
        try (InputStream in = FileContent.open(DataFile.of("f", bytes, kind, Samples.TIMES), 11, "a/f")) {
            return in.readAllBytes();
        }
    }

    @ParameterizedTest
    @EnumSource(ContentKind.class)
    void hasExactlyTheSizeAskedForAndIsRepeatable(ContentKind kind) throws IOException {
        for (int bytes : new int[] {0, 1, 63, 64, 255, 256, 511, 512, 1023, 1024, 2047, 2048, 2049, 5000, 65_536, 100_003}) {
            byte[] made = content(kind, bytes);
            assertEquals(bytes, made.length, kind.toString());
            assertArrayEquals(made, content(kind, bytes));
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {300, 4096, 9_999, 250_001})
    void pngOpens(int bytes) throws IOException {
        var picture = ImageIO.read(new ByteArrayInputStream(content(ContentKind.PNG, bytes)));
        assertNotNull(picture);
        assertTrue(picture.getWidth() * picture.getHeight() * 3 > bytes / 2 || bytes < 1000, picture.toString());
    }

    @ParameterizedTest
    @ValueSource(ints = {2048, 20_000, 20_001, 20_002, 20_003, 300_007})
    void jpegOpensAndShowsTheComputedPicture(int bytes) throws IOException {
        byte[] made = content(ContentKind.JPEG, bytes);
        var picture = ImageIO.read(new ByteArrayInputStream(made));
        assertNotNull(picture);
        assertTrue(scanBytes(made) > bytes / 2 || bytes < 4096, "scan " + scanBytes(made) + " of " + bytes);
        int sky = picture.getRGB(picture.getWidth() / 2, 0) & 0xFF;
        int ground = picture.getRGB(picture.getWidth() / 2, picture.getHeight() - 1) & 0xFF;
        assertTrue(sky > ground + 40, "blue of sky " + sky + ", of ground " + ground);
    }

    /** Bytes after the start-of-scan marker. */
    private static int scanBytes(byte[] jpeg) {
        int at = 2;
        while ((jpeg[at + 1] & 0xFF) != 0xDA) {
            at += (jpeg[at + 1] & 0xFF) == 0xFF ? 1 : 2 + ((jpeg[at + 2] & 0xFF) << 8 | jpeg[at + 3] & 0xFF);
        }
        return jpeg.length - at;
    }

    @Test
    void zipOpens() throws IOException {
        int members = 0;
        try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(content(ContentKind.ZIP, 10_001)))) {
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                zip.readAllBytes();
                members++;
            }
        }
        assertEquals(2, members);
        Path file = Files.write(folder.resolve("a.zip"), content(ContentKind.ZIP, 10_001));
        try (var zip = new java.util.zip.ZipFile(file.toFile())) {
            assertEquals(2, zip.size());
        }
    }

    @Test
    void wavOpens() throws Exception {
        try (var sound = AudioSystem.getAudioInputStream(new ByteArrayInputStream(content(ContentKind.WAV, 44 + 2000)))) {
            assertEquals(1000, sound.getFrameLength());
            assertEquals(22050f, sound.getFormat().getSampleRate());
        }
    }

    @Test
    void pdfHasATableThatPointsAtItsObjects() throws IOException {
        String text = new String(content(ContentKind.PDF, 3_333), StandardCharsets.US_ASCII);
        int table = Integer.parseInt(text.substring(text.indexOf("startxref\n") + 10).lines().findFirst().orElseThrow());
        assertTrue(text.startsWith("xref\n0 6\n", table));
        for (int object = 1; object <= 5; object++) {
            int at = Integer.parseInt(text.substring(table + 9 + 20 * object, table + 19 + 20 * object));
            assertTrue(text.startsWith(object + " 0 obj\n", at), "object " + object);
        }
        Path file = Files.write(folder.resolve("a.pdf"), content(ContentKind.PDF, 3_333));
        String info = Tool.run("pdfinfo", file.toString()).ok();
        assertTrue(info.contains("Pages:           1"), info);
    }

    @Test
    void noticeSaysThatAllIsInvented() throws IOException {
        assertTrue(new String(content(ContentKind.NOTICE, 900), StandardCharsets.US_ASCII).startsWith("EVERYTHING ON THIS VOLUME IS INVENTED"));
    }

    @Test
    void streamsGiveTheSameInPartsOfAnySize() throws IOException {
        for (ContentKind kind : new ContentKind[] {ContentKind.RANDOM, ContentKind.TEXT}) {
            byte[] whole = content(kind, 10_000);
            byte[] parts = new byte[10_000];
            try (InputStream in = FileContent.open(DataFile.of("f", 10_000, kind, Samples.TIMES), 11, "a/f")) {
                SplitMix64 sizes = new SplitMix64(1);
                for (int at = 0; at < parts.length;) {
                    at += in.readNBytes(parts, at, Math.min(parts.length - at, 1 + sizes.below(50)));
                }
            }
            assertEquals(-1, Arrays.mismatch(whole, parts), kind.toString());
        }
    }
}
