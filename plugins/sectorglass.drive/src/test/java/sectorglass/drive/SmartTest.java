package sectorglass.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Locale;

import org.junit.jupiter.api.Test;

import sectorglass.disk.DriveHealth;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.verify.Verdict;

/** SMART data of an invented drive, and damage to them. */
class SmartTest {
    private static List<String> failed(Window data, Window thresholds) {
        Checks out = new Checks();
        new AtaData().checkHealth(data, thresholds, out);
        return Findings.of(out, RuleBook.ofProviders(Locale.ENGLISH), 512).all().stream()
                .filter(f -> f.verdict() == Verdict.FAILED && f.cause() == null).map(Finding::check).toList();
    }

    @Test
    void attributes() {
        List<DriveHealth.Attribute> all = new AtaData().health(Sectors.read(Sectors.smart()), null).orElseThrow().attributes();
        assertEquals(List.of(5, 0xC5, 0xC6), all.stream().map(DriveHealth.Attribute::id).toList());
        assertEquals("reallocated sectors", all.get(0).name());
        assertEquals(8, all.get(0).raw());
        assertEquals(100, all.get(0).value());
        assertTrue(all.get(0).prefailure());
        assertNull(all.get(0).failing());
        assertEquals(List.of(), failed(Sectors.read(Sectors.smart()), null));
    }

    @Test
    void thresholds() {
        assertEquals(List.of(), failed(Sectors.read(Sectors.smart()), Sectors.read(Sectors.thresholds(36))));
        assertEquals(List.of("ata.smart.attribute"), failed(Sectors.read(Sectors.smart()), Sectors.read(Sectors.thresholds(100))));
        assertEquals(List.of("ata.smart.attribute"), failed(Sectors.read(Sectors.smart()), Sectors.read(Sectors.thresholds(0xFF))));
    }

    @Test
    void everyBitChangesTheChecksum() {
        for (int at = 0; at < 512; at++) {
            for (int bit = 0; bit < 8; bit++) {
                byte[] sector = Sectors.smart();
                sector[at] ^= 1 << bit;
                assertEquals(List.of("ata.smart.checksum"), failed(Sectors.read(sector), Sectors.read(Sectors.thresholds(36))), "byte " + at);
            }
        }
    }
}
