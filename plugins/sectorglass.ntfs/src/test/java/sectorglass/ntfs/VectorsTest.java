package sectorglass.ntfs;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;

import sectorglass.image.ByteRange;
import org.junit.jupiter.api.TestFactory;

/** Published and recomputed examples: runs, FILETIME, LZNT1, cluster sizes, update sequences. */
class VectorsTest {
    private static final HexFormat HEX = HexFormat.ofDelimiter(" ");

    private record Runs(String bytes, String decoded, RunList.Problem problem) { }

    /** Linux-NTFS documentation, "Data Runs"; runs written by mkntfs and ntfs-3g; the illegal ones follow from NTFS-3G runlist.c. */
    @TestFactory
    Stream<DynamicTest> dataRuns() {
        return Stream.of(new Runs("21 18 34 56 00", "24@22068", RunList.Problem.NONE),
                new Runs("31 38 73 25 34 32 14 01 e5 11 02 31 42 aa 00 03 00", "56@3417459 276@3553112 66@3749890", RunList.Problem.NONE),
                new Runs("11 30 60 21 10 00 01 11 20 e0 00", "48@96 16@352 32@320", RunList.Problem.NONE),
                new Runs("21 10 99 56 21 10 7f 12 21 10 36 10 22 80 04 b0 c1 00", "16@22169 16@26904 16@31054 1152@15102",
                        RunList.Problem.NONE),
                new Runs("02 80 00 21 01 18 32 01 7e 11 01 7f 00", "128@-1 1@12824 126@-1 1@12951", RunList.Problem.NONE),
                new Runs("21 03 1a 22 01 0d 11 03 03 01 0d 11 02 03 01 0e 00", "3@8730 13@-1 3@8733 13@-1 2@8736 14@-1",
                        RunList.Problem.NONE),
                new Runs("02 ff 3f 00", "16383@-1", RunList.Problem.NONE), new Runs("22 00 02 00 20 00", "512@8192", RunList.Problem.NONE),
                new Runs("11 02 00 00", "2@0", RunList.Problem.NONE), new Runs("11 80 05 00", "", RunList.Problem.BAD_LENGTH),
                new Runs("21 05 00 80 00", "", RunList.Problem.BAD_LCN), new Runs("21 10 00 01", "16@256", RunList.Problem.UNTERMINATED),
                new Runs("10 05 00", "", RunList.Problem.BAD_FIELD_SIZE), new Runs("91 01 02 00", "", RunList.Problem.BAD_FIELD_SIZE),
                new Runs("18 ff ff ff ff ff ff ff 7f 01 00", "", RunList.Problem.BAD_LENGTH))
                .map(v -> DynamicTest.dynamicTest(v.bytes(), () -> {
                    byte[] bytes = HEX.parseHex(v.bytes());
                    FixedBlock block = new FixedBlock();
                    block.begin(bytes, 0, bytes.length);
                    RunList runs = new RunList();
                    runs.add(block, 0, bytes.length, 0);
                    StringBuilder text = new StringBuilder();
                    for (int i = 0; i < runs.runs(); i++) {
                        text.append(i == 0 ? "" : " ").append(runs.count(i)).append('@').append(runs.lcn(i));
                    }
                    assertEquals(v.decoded(), text.toString());
                    assertEquals(v.problem(), runs.problem());
                }));
    }

    /** MS-DTYP 2.3.3; the third and fourth also stand in volumes made by mkntfs -T and ntfscp under a fixed clock. */
    @Test
    void fileTimes() {
        assertEquals("2000-01-01T00:00:00Z", NameValue.instant(125911584000000000L).toString());
        assertEquals("1970-01-01T00:00:00Z", NameValue.instant(116444736000000000L).toString());
        assertEquals(Instant.parse("2024-01-02T03:04:05Z"), NameValue.instant(133486382450000000L));
        assertEquals("2038-01-19T03:14:07Z", NameValue.instant(137919572470000000L).toString());
        assertEquals(TreeScan.millis(133486382450000000L), Instant.parse("2024-01-02T03:04:05Z").toEpochMilli());
        assertEquals(null, NameValue.instant(Long.MAX_VALUE));
        assertEquals(null, NameValue.instant(-1));
    }

    /** MS-XCA 3.3, the LZNT1 example. */
    @Test
    void lznt1() {
        byte[] in = HexFormat.of().parseHex(("38b08846232000204720410010a24701a04520440008450150790 0c045200524138805b4024a44ef035802"
                + "8c09160148450 0be009e000401189000").replace(" ", ""));
        byte[] out = new byte[142];
        assertEquals(142, Lznt1.unit(in, in.length, out));
        assertEquals("F# F# G A A G F# E D D E F# F# E E F# F# G A A G F# E D D E F# E D D E E F# D E F# G F# D E F# G F# E D E A F# F# G "
                + "A A G F# E D D E F# E D D\0", new String(out, StandardCharsets.US_ASCII));
        byte[] broken = in.clone();
        broken[1] = (byte) 0x80; // signature 0 instead of 3
        assertEquals(0, Lznt1.unit(broken, broken.length, out));
        assertArrayEquals(new byte[142], out);
    }

    /**
     * The same example with bytes unread: its items up to them are (MS-XCA 3.3) three characters, then 3 bytes from 3 back, so 6 bytes where
     * byte 8 is the first unread one and 3 where the reference itself is cut.
     */
    @Test
    void lznt1WithBytesUnread() {
        byte[] in = HexFormat.of().parseHex(("38b08846232000204720410010a24701a0452044000845015079 00c045200524138805b4024a44ef035802"
                + "8c09160148450 0be009e000401189000").replace(" ", ""));
        byte[] out = new byte[8192];
        assertEquals(List.of(new ByteRange(6, 4090)), Lznt1.unit(in, in.length, new int[] {8, 20}, out));
        assertEquals("F# F# \0", new String(out, 0, 7, StandardCharsets.US_ASCII));
        assertEquals(List.of(new ByteRange(3, 4093)), Lznt1.unit(in, in.length, new int[] {7, 8}, out));
        assertEquals(List.of(new ByteRange(0, 8192)), Lznt1.unit(in, in.length, new int[] {1, 2}, out));
        // a chunk stored as it is (head 3FFF) before it, of which 100 bytes are unread: the chunk behind is whole
        byte[] two = new byte[2 + 4096 + in.length];
        java.util.Arrays.fill(two, 2, 4098, (byte) 7);
        two[0] = (byte) 0xFF;
        two[1] = 0x3F;
        System.arraycopy(in, 0, two, 4098, in.length);
        assertEquals(List.of(new ByteRange(1000, 100)), Lznt1.unit(two, two.length, new int[] {1002, 1102}, out));
        assertEquals(0, out[1000]);
        assertEquals(7, out[1100]);
        assertEquals("F# F# G A", new String(out, 4096, 9, StandardCharsets.US_ASCII));
    }

    /** Boot sectors of mkntfs with -c 512 … 2097152, and NTFS-3G bootsect.c for what is illegal. */
    @Test
    void sizesInTheBootSector() {
        assertEquals(512, BootSector.clusterBytes(512, 1));
        assertEquals(65536, BootSector.clusterBytes(512, 0x80));
        assertEquals(131072, BootSector.clusterBytes(512, 0xF8));
        assertEquals(2097152, BootSector.clusterBytes(512, 0xF4));
        assertEquals(4096, BootSector.clusterBytes(4096, 1));
        for (int illegal : new int[] {0, 3, 129, 239, 254, 255, 0xF3}) {
            assertEquals(0, BootSector.clusterBytes(512, illegal), "" + illegal);
        }
        assertEquals(1024, BootSector.recordBytes(0xF6, 4096));
        assertEquals(1024, BootSector.recordBytes(2, 512));
        assertEquals(4096, BootSector.recordBytes(1, 4096));
        assertEquals(4096, BootSector.indexBytes(0xF4, 65536));
        assertEquals(4096, BootSector.indexBytes(8, 512));
        for (int illegal : new int[] {0, 0x80, 0xE0, 3}) {
            assertEquals(0, BootSector.recordBytes(illegal, 512), "" + illegal);
        }
    }

    @Test
    void attributeListsStopAtALengthOfZero() {
        byte[] list = new byte[64];
        list[0] = 0x30;
        list[4] = 32;
        list[0x10] = 77;
        List<AttributeList.Entry> entries = AttributeList.parse(list, list.length);
        assertEquals(1, entries.size());
        assertEquals(77, entries.get(0).record());
    }
}
