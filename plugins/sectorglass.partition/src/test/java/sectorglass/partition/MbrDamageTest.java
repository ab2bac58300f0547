package sectorglass.partition;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import sectorglass.partition.mbr.Chs;
import sectorglass.verify.Finding;

/** Single faults of an MBR and the tolerances around it. */
class MbrDamageTest {
    private final Memory good = Samples.mbr();

    @ParameterizedTest
    @CsvSource({"0,000100", "1,000200", "62,003F00", "63,010100", "2047,202000", "2048,202100", "16064,FE3F00", "16065,000101",
        "67583,343004", "131071,282008", "1048576,454541", "16434494,FEFFFE", "16450559,FEFFFF", "16450560,FEFFFF"})
    void chsRows(long lba, String packed) {
        int expected = Integer.parseInt(packed.replace("454541", "450541"), 16);
        assertEquals(expected, Chs.pack(lba, 255, 63));
        if (lba < 16450559) {
            long back = ((long) Chs.cylinder(expected) * 255 + Chs.head(expected)) * 63 + Chs.sector(expected) - 1;
            assertEquals(lba, back);
        }
    }

    @Test
    void endBeyondTheImageListsTheCauses() {
        Look look = Look.at(good.u32(446 + 12, 600_000).put(462, new byte[48]));
        Finding finding = look.one("mbr.partition-range");
        assertEquals(446 + 8, finding.where().start());
        assertTrue(finding.means().contains("shorter than the disk was") && finding.means().contains("reported fewer sectors")
                && finding.means().contains("one member of a set"), finding.means());
    }

    @Test
    void sectorSizeIsACauseWhereItFits() {
        Memory large = Memory.zeros(64 * Samples.MIB, 4096).put(446, Samples.hex("00 20 21 00 83 34 30 04 00 08 00 00 00 80 00 00"))
                .put(510, 0x55, 0xAA);
        assertTrue(Look.at(large).one("mbr.partition-range").means().contains("sectors of 512 bytes"));
    }

    @Test
    void overlapAndTwoContainers() {
        assertEquals(List.of("mbr.partition-overlap@470"), Look.at(good.u32(462 + 8, 3000)).serious());
        Look two = Look.at(good.put(462 + 4, 0x0F));
        assertTrue(two.serious().contains("mbr.container-count@482"), two.serious().toString());
    }

    @Test
    void unreadTableIsNotChecked() {
        Look look = Look.at(good.unread(0, 1));
        assertEquals(List.of(), look.failed());
        assertEquals("[0..0]", look.one("mbr.signature").missing().toString());
        assertEquals(List.of(), look.partitions());
    }

    @Test
    void nothingOnBlankDisks() {
        for (int fill : new int[] {0, 0xFF, 0x55}) {
            byte[] all = new byte[8192];
            java.util.Arrays.fill(all, (byte) fill);
            Look look = Look.at(Memory.of(all, 512));
            assertEquals(0, look.findings().all().size());
            assertEquals(0, look.disk().maps().size());
        }
    }

    @Test
    void emptyTableWithASignature() {
        Look look = Look.at(Memory.zeros(1 << 20, 512).put(510, 0x55, 0xAA));
        assertEquals(List.of("mbr.disk-signature@440"), look.failed());
        assertEquals("no slot is in use", look.disk().maps().get(0).map().remark());
    }

    @Test
    void everyCut() {
        for (int end = 0; end <= 2048; end++) {
            Look look = Look.at(good.resize(end));
            if (end < 512) {
                assertEquals(List.of(), look.failed());
            } else {
                assertTrue(look.serious().contains("mbr.partition-range@454"), "cut at " + end + ": " + look.serious());
                assertEquals(List.of("2048+65536 83", "67584+65536 0c"), look.partitions());
            }
        }
    }
}
