package sectorglass.partition;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;

import org.junit.jupiter.api.Test;

import sectorglass.verify.Finding;

/** Damage to a chain of EBRs, each reported once with its byte. Rules of Linux block/partitions/msdos.c. */
class EbrDamageTest {
    private static final long LAST_LINK = 112198094;
    private static final long MIDDLE = 176128L * 512;
    private static final List<String> PRIMARY = List.of("2048+65536 83", "67584+65536 0c");
    private static final List<String> ALL = List.of("2048+65536 83", "67584+65536 0c", "135168+40960 83", "178176+40960 82",
            "221184+61440 07");

    private final Memory good = Samples.mbr();

    private static Finding one(Memory image, String expected, List<String> partitions) {
        Look look = Look.at(image);
        assertEquals(List.of(expected), look.failed());
        assertEquals(partitions, look.partitions());
        return look.one(expected.substring(0, expected.indexOf('@')));
    }

    private Memory lastLink(long target) {
        return good.put(LAST_LINK, Samples.hex("00 00 00 00 05 00 00 00 00 00 00 00 00 F8 00 00")).u32(LAST_LINK + 8, target - 133120);
    }

    @Test
    void soundChain() {
        Look look = Look.at(good);
        assertEquals(List.of(), look.failed());
        assertEquals(ALL, look.partitions());
        assertEquals(List.of(1, 2, 5, 6, 7), look.disk().partitions().stream().map(p -> p.entry().slot()).toList());
        assertEquals(List.of("1a2b3c4d-01", "1a2b3c4d-02", "1a2b3c4d-05", "1a2b3c4d-06", "1a2b3c4d-07"),
                look.disk().partitions().stream().map(p -> p.entry().uuid()).toList());
        assertEquals(List.of("mbr 0", "ebr 133120"), look.disk().maps().stream().map(f -> f.map().kind() + " " + f.map().lba()).toList());
        assertEquals(3, look.disk().maps().get(1).map().structures().size());
    }

    @Test
    void linkToTheSecondEbr() {
        assertTrue(one(lastLink(176128), "mbr.ebr-chain@" + (LAST_LINK + 8), ALL).what().contains("already visited"));
    }

    @Test
    void linkToTheStartOfTheContainer() {
        one(lastLink(133120), "mbr.ebr-chain@" + (LAST_LINK + 8), ALL);
    }

    @Test
    void linkToItself() {
        one(lastLink(219136), "mbr.ebr-chain@" + (LAST_LINK + 8), ALL);
    }

    @Test
    void signatureOfTheSecondEbrLost() {
        one(good.put(MIDDLE + 510, 0, 0), "mbr.ebr-chain@" + (MIDDLE + 510), ALL);
    }

    @Test
    void linkOutsideTheContainer() {
        assertTrue(one(lastLink(9_000_000), "mbr.ebr-chain@" + (LAST_LINK + 8), ALL).what().contains("leaves the container"));
    }

    @Test
    void logicalStartStoredAbsolute() {
        Finding finding = one(good.u32(90177982 + 8, 178176), "mbr.ebr-chain@" + (90177982 + 8), List.of("2048+65536 83",
                "67584+65536 0c", "135168+40960 83", "354304+40960 82", "221184+61440 07"));
        assertTrue(finding.what().contains("2048 would be right"), finding.what());
    }

    @Test
    void linkRelativeToTheCurrentEbr() {
        Look look = Look.at(good.u32(90177998 + 8, 219136 - 176128));
        assertEquals(List.of("mbr.ebr-chain@" + (90177998 + 8)), look.serious());
    }

    @Test
    void overwrittenEbrEndsTheChain() {
        Look look = Look.at(good.put(MIDDLE, new byte[512]));
        assertEquals(List.of("mbr.ebr-chain@" + (MIDDLE + 510)), look.failed());
        assertEquals(List.of("2048+65536 83", "67584+65536 0c", "135168+40960 83"), look.partitions());
    }

    @Test
    void unreadEbrIsNoEnd() {
        Look look = Look.at(good.unread(176128, 1));
        assertEquals(List.of(), look.failed());
        assertEquals("[176128..176128]", look.one("mbr.ebr-chain").missing().toString());
    }

    @Test
    void otherContainerTypes() {
        for (int type : new int[] {0x0F, 0x85}) {
            assertEquals(ALL, Look.at(good.put(478 + 4, type)).partitions());
        }
        assertEquals(PRIMARY, Look.at(good.put(478 + 4, 0)).partitions());
    }

    @Test
    void containerTooSmallForItsChain() {
        Look look = Look.at(good.u32(478 + 12, 219136 - 133120));
        assertTrue(look.serious().contains("mbr.ebr-chain@" + (90177998 + 8)), look.serious().toString());
    }

    @Test
    void manyEmptyLinksEnd() {
        Memory chain = Memory.zeros(64 * Samples.MIB, 512).put(446 + 4, 0x0F).u32(454, 64).u32(458, 100_000).put(510, 0x55, 0xAA);
        for (int i = 0; i < 300; i++) {
            chain = chain.put((64L + i) * 512 + 446 + 4, 0x05).u32((64L + i) * 512 + 454, i + 1).u32((64L + i) * 512 + 458, 1)
                    .put((64L + i) * 512 + 510, 0x55, 0xAA);
        }
        Look look = Look.at(chain);
        assertEquals(1, look.serious().stream().filter(f -> f.startsWith("mbr.ebr-chain")).count());
        assertTrue(look.one("mbr.ebr-chain").what().contains("does not come to an end"));
    }
}
