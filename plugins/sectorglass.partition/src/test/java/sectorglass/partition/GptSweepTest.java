package sectorglass.partition;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;

import org.junit.jupiter.api.Test;

/** Every bit of a header changed: bytes 0 to 91 give a failed check at that header, the reserved rest a cosmetic one. */
class GptSweepTest {
    private final Memory good = Samples.gpt(512);

    @Test
    void everyBitOfBothHeaders() {
        for (long start : new long[] {512, 131071 * 512L}) {
            for (int at = 0; at < 512; at++) {
                for (int bit = 0; bit < 8; bit++) {
                    Look look = Look.at(good.flip(start + at, 1 << bit));
                    String place = "byte " + at + " bit " + bit + " of the header at " + start;
                    List<String> failed = look.failed();
                    if (at < 92) {
                        String found = failed.stream().filter(f -> within(f, start)).findFirst().orElse("none");
                        assertTrue(found.startsWith("gpt.header."), place + ": " + failed);
                        assertEquals(1, look.serious().size(), place + ": " + failed);
                    } else {
                        assertEquals(List.of("gpt.header.reserved@" + (start + at)), failed, place);
                        assertEquals(List.of(), look.serious(), place);
                    }
                    assertEquals(2, look.partitions().size(), place);
                }
            }
        }
    }

    private static boolean within(String finding, long start) {
        long at = Long.parseLong(finding.substring(finding.indexOf('@') + 1));
        return at >= start && at < start + 512;
    }

    @Test
    void everyCut() {
        for (long end = 0; end < 20 * 1024; end += 1) {
            if (end > 4096 && (end + 2) % 512 > 4) {
                continue; // whole sectors decide: past the header only the bytes around each boundary
            }
            Look look = Look.at(good.resize(end));
            if (end < 1024) {
                assertTrue(look.serious().isEmpty() || end >= 512, "cut at " + end + ": " + look.failed());
            } else {
                assertTrue(look.serious().contains("gpt.header.alternate-lba@544"), "cut at " + end + ": " + look.failed());
            }
        }
    }
}
