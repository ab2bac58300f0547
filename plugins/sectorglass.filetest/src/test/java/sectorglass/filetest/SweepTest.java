package sectorglass.filetest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Random;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.FileState;
import sectorglass.image.Progress;
import sectorglass.recovery.opening.FileTests;
import sectorglass.recovery.opening.TestResult;

/**
 * Zeroes 512 bytes at many places of a sound file of each kind and counts how often the test says damaged. In the build a few places;
 * {@code -Dsweep.places=100 -Dsweep.write=FILE} writes the table of docs/file-tests.md, {@code -Dsweep.only=ENDING} one row of it.
 */
class SweepTest {
    private static final int HOLE = 512;
    /** Ending of the only kind to try; empty for all. */
    private static final String ONLY = System.getProperty("sweep.only", "");
    private static final int PLACES = Integer.getInteger("sweep.places", 10);
    /** Kinds with checksums over everything, or nearly: each place must be found. Others have the rate published. */
    private static final java.util.Set<String> WHOLE = java.util.Set.of("png", "gz", "bz2", "xz", "7z", "ogg", "flac", "docx", "odt", "zip", "txt", "mbox", "eml", "pst");

    @TempDir
    Path folder;

    private final FileTests tests = FileTests.ofProviders();

    private TestResult test(String name, byte[] bytes) {
        return tests.test(name, new MemoryContent(bytes), FileState.COMPLETE, Progress.NONE);
    }

    @Test
    void soundFilesAreSoundAndZeroedOnesAreFoundAsOftenAsPublished() throws IOException {
        Map<String, Integer> rates = new LinkedHashMap<>();
        StringBuilder table = new StringBuilder("| file | type | bytes | sound file | found of ").append(PLACES).append(" |\n|---|---|---|---|---|\n");
        for (Map.Entry<String, byte[]> sample : Samples.make(folder).entrySet()) {
            String name = sample.getKey();
            if (!name.endsWith(ONLY)) {
                continue;
            }
            byte[] sound = sample.getValue();
            TestResult first = test(name, sound);
            assertTrue(first.answer() == TestResult.Answer.OPENED || first.answer() == TestResult.Answer.SOUND,
                    () -> name + ": " + first + " " + first.sentence(Locale.ENGLISH));
            assertTrue(first.nameFits(), name);
            Random random = new Random(name.hashCode());
            int found = 0;
            for (int i = 0; i < PLACES; i++) {
                byte[] hurt = sound.clone();
                int at;
                boolean zero;
                do {
                    at = random.nextInt(Math.max(1, sound.length - HOLE));
                    zero = true;
                    for (int k = at; k < Math.min(sound.length, at + HOLE); k++) {
                        zero &= sound[k] == 0;
                    }
                } while (zero);
                java.util.Arrays.fill(hurt, at, Math.min(sound.length, at + HOLE), (byte) 0);
                TestResult result = test(name, hurt);
                found += result.answer() == TestResult.Answer.DAMAGED ? 1 : 0;
            }
            String ending = name.substring(name.indexOf('.') + 1);
            rates.put(ending, found);
            table.append("| ").append(ending).append(" | ").append(first.type().name()).append(" | ").append(sound.length).append(" | ")
                    .append(first.answer().word()).append(" | ").append(found).append(" |\n");
        }
        String write = System.getProperty("sweep.write");
        if (write != null) {
            Files.writeString(Path.of(write), table);
        }
        rates.forEach((ending, found) -> {
            if (WHOLE.contains(ending)) {
                assertEquals(PLACES, found, ending + " of " + rates);
            }
        });
        if (!ONLY.isEmpty()) {
            return;
        }
        assertTrue(rates.get("jpg") >= PLACES * 7 / 10, rates.toString());
        assertTrue(rates.get("pdf") >= PLACES * 7 / 10, rates.toString());
        assertTrue(rates.get("mp4") >= PLACES / 10, rates.toString());
    }
}
