package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import java.util.zip.GZIPOutputStream;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Finder;
import sectorglass.disk.Signature;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.image.Providers;
import sectorglass.recovery.LostSearch;
import sectorglass.recovery.SearchResult;

/** Nothing is found where nothing is; and what is made to mislead neither hangs nor fills memory. */
class NoFalseJoyTest {
    private static final int MIB = 1 << 20;
    @TempDir
    Path folder;

    private SearchResult search(byte[] bytes) throws Exception {
        Path file = folder.resolve("made.img");
        Files.write(file, bytes);
        try (OpenImage image = Images.open(file, OpenOptions.DEFAULT.withSectorSize(512).withRawAnyway(true))) {
            return LostSearch.of(image, Progress.NONE);
        }
    }

    @Test
    void randomBytes() throws Exception {
        byte[] bytes = new byte[32 * MIB];
        new Random(11).nextBytes(bytes);
        SearchResult result = search(bytes);
        assertEquals(List.of(), result.volumes());
        assertTrue(result.complete());
    }

    @Test
    void randomBytesBehindEverySignature() throws Exception {
        byte[] bytes = new byte[24 * MIB];
        Random random = new Random(12);
        random.nextBytes(bytes);
        List<Signature> signatures = Providers.all(Finder.class).stream().flatMap(f -> f.signatures().stream()).toList();
        for (int at = 0; at + 8192 < bytes.length; at += 2048) {
            Signature one = signatures.get(random.nextInt(signatures.size()));
            System.arraycopy(one.bytes(), 0, bytes, at + one.offset(), one.bytes().length);
        }
        assertEquals(List.of(), search(bytes).proven());
    }

    @Test
    void compressedBytes() throws Exception {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        Random random = new Random(13);
        while (out.size() < 8 * MIB) {
            byte[] text = new byte[4 * MIB];
            for (int i = 0; i < text.length; i++) {
                text[i] = (byte) ('a' + (random.nextInt() & random.nextInt() & 15));
            }
            try (GZIPOutputStream zip = new GZIPOutputStream(out)) {
                zip.write(text);
            }
        }
        assertEquals(List.of(), search(out.toByteArray()).volumes());
    }

    @Test
    @Timeout(240)
    void theSameSignatureInEverySector() throws Exception {
        for (Finder finder : Providers.all(Finder.class)) {
            for (Signature signature : finder.signatures()) {
                byte[] bytes = new byte[2 * MIB];
                for (int at = 0; at + signature.offset() + 16 < bytes.length; at += 512) {
                    System.arraycopy(signature.bytes(), 0, bytes, at + signature.offset(), signature.bytes().length);
                }
                SearchResult result = search(bytes);
                assertEquals(List.of(), result.proven(), signature.structure());
            }
        }
    }

    /** A boot sector of every kind that is legal in all fields, with the largest numbers they can hold, in every other sector. */
    @Test
    @Timeout(240)
    void enormousClaims() throws Exception {
        byte[] bytes = new byte[2 * MIB];
        new Random(14).nextBytes(bytes);
        for (int at = 0; at + 4096 < bytes.length; at += 4096) {
            byte[] boot = new byte[512];
            if (at / 4096 % 2 == 0) {
                put(boot, 3, "NTFS    ");
                number(boot, 11, 512, 2);
                number(boot, 13, 8, 1);
                number(boot, 40, (1L << 50) - at, 8);
                number(boot, 48, (1L << 46) + at, 8);
                number(boot, 56, 4, 8);
                number(boot, 64, 0xF6, 1);
                number(boot, 68, 1, 1);
            } else {
                put(boot, 3, "EXFAT   ");
                number(boot, 64, Long.MAX_VALUE, 8);
                number(boot, 72, (Long.MAX_VALUE >> 12) - at, 8);
                number(boot, 80, 0xFFFFFFF0L, 4);
                number(boot, 84, 0xFFFFFFFFL, 4);
                number(boot, 88, 0xFFFFFFFFL, 4);
                number(boot, 92, 0xFFFFFFF0L, 4);
                number(boot, 108, 12, 1);
                number(boot, 109, 13, 1);
                number(boot, 110, 1, 1);
            }
            number(boot, 510, 0xAA55, 2);
            System.arraycopy(boot, 0, bytes, at, 512);
        }
        assertEquals(List.of(), search(bytes).proven());
    }

    private static void put(byte[] into, int at, String text) {
        byte[] bytes = text.getBytes(StandardCharsets.US_ASCII);
        System.arraycopy(bytes, 0, into, at, bytes.length);
    }

    private static void number(byte[] into, int at, long value, int width) {
        for (int i = 0; i < width; i++) {
            into[at + i] = (byte) (value >>> 8 * i);
        }
    }
}
