package sectorglass.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Locale;

import org.junit.jupiter.api.Test;

import sectorglass.disk.DriveDataProvider;
import sectorglass.disk.DriveIdentity;
import sectorglass.image.Providers;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.verify.Verdict;

/** IDENTIFY DEVICE data of an invented drive, and damage to them. */
class IdentifyTest {
    private final DriveDataProvider provider = Providers.all(DriveDataProvider.class).get(0);

    private List<Finding> findings(Window data) {
        Checks out = new Checks();
        provider.checkIdentity(data, null, out);
        return Findings.of(out, RuleBook.ofProviders(Locale.ENGLISH), 512).all();
    }

    private List<String> of(Window data, Verdict verdict) {
        return findings(data).stream().filter(f -> f.verdict() == verdict && f.cause() == null).map(Finding::check).toList();
    }

    @Test
    void identity() {
        DriveIdentity identity = provider.identify(Sectors.read(Sectors.identify())).orElseThrow();
        assertEquals("EXAMPLE DISK 1000", identity.model());
        assertEquals("TEST0001", identity.serial());
        assertEquals("FW01", identity.firmware());
        assertEquals(1953525168L, identity.sectors());
        assertEquals(512, identity.sectorBytes());
        assertEquals(4096, identity.physicalBytes());
        assertTrue(identity.facts().contains(new DriveIdentity.Fact("medium", "7200 rotations per minute")));
        assertEquals(List.of(), of(Sectors.read(Sectors.identify()), Verdict.FAILED));
        assertEquals(List.of(), of(Sectors.read(Sectors.identify()), Verdict.NOT_CHECKED));
    }

    @Test
    void standardsOwnExampleOfAString() {
        byte[] sector = new byte[512];
        Sectors.put(sector, 46, 0x62, 0x61, 0x64, 0x63, 0x66, 0x65, 0x20, 0x67);
        assertEquals("abcdefg ", new IdentifyData(Sectors.read(sector)).text(23, 4));
    }

    @Test
    void everyBitChangesTheChecksum() {
        for (int at = 0; at < 512; at++) {
            for (int bit = 0; bit < 8; bit++) {
                byte[] sector = Sectors.identify();
                sector[at] ^= 1 << bit;
                if (at == 510) {
                    assertTrue(of(Sectors.read(sector), Verdict.NOT_CHECKED).contains("ata.identify.checksum"));
                    assertEquals(List.of(), of(Sectors.read(sector), Verdict.FAILED));
                } else {
                    assertEquals(List.of("ata.identify.checksum"), of(Sectors.read(sector), Verdict.FAILED), "byte " + at);
                }
            }
        }
    }

    @Test
    void sectorSizes() {
        byte[] native4096 = Sectors.identify();
        Sectors.put(native4096, 212, 0, 0x50);
        Sectors.put(native4096, 234, 0, 8);
        DriveIdentity identity = new IdentifyData(Sectors.read(native4096)).identity();
        assertEquals(4096, identity.sectorBytes());
        assertEquals(4096, identity.physicalBytes());
        byte[] plain = Sectors.identify();
        Sectors.put(plain, 212, 0, 0);
        assertEquals(512, new IdentifyData(Sectors.read(plain)).identity().physicalBytes());
    }

    @Test
    void unreadIsNotChecked() {
        assertEquals(List.of(), of(Sectors.unread(Sectors.identify()), Verdict.FAILED));
        assertTrue(findings(Sectors.unread(Sectors.identify())).stream().allMatch(f -> f.verdict() == Verdict.NOT_CHECKED
                && f.missing().toString().equals("[0..0]")));
        assertTrue(provider.identify(Sectors.read(new byte[100])).isEmpty());
    }
}
