package sectorglass.image;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ChunkSetTest {
    @TempDir
    Path folder;

    /** Writes the numbered bytes of a disk as files of the given sizes; a name of "-" leaves a part out. */
    private void parts(String[] names, int... sizes) throws Exception {
        long at = 0;
        for (int i = 0; i < names.length; i++) {
            if (!names[i].equals("-")) {
                Files.write(folder.resolve(names[i]), TestFiles.numbers(at, sizes[i]));
            }
            at += sizes[i];
        }
    }

    private OpenImage open(String name) throws ImageException {
        return Images.open(folder.resolve(name));
    }

    private static void remarked(OpenImage image, String words) {
        assertTrue(image.remarks().stream().anyMatch(remark -> remark.contains(words)), () -> words + " in " + image.remarks());
    }

    @ParameterizedTest
    @CsvSource({"disk.001,disk.002,disk.003", "disk.img.0,disk.img.1,disk.img.2", "d.8,d.9,d.10", "part7.bin,part8.bin,part9.bin",
        "disk-part-0098.img,disk-part-0099.img,disk-part-0100.img", "x_chunk_99,x_chunk_100,x_chunk_101",
        "2024 disk Teil 1.raw,2024 disk Teil 2.raw,2024 disk Teil 3.raw"})
    void partsAreFoundByTheirNumbers(String a, String b, String c) throws Exception {
        parts(new String[] {a, b, c}, 1000, 1000, 700);
        try (OpenImage image = open(a)) {
            assertEquals(2700, image.bytes());
            assertArrayEquals(TestFiles.numbers(0, 2700), image.window(0, 2700).bytes(0, 2700));
            assertEquals(3, image.parts().size());
            remarked(image, "3 files are joined");
        }
        try (OpenImage image = open(b)) {
            assertEquals(2700, image.bytes());
            remarked(image, b + " is not the first part");
        }
    }

    @Test
    void imagesThatOnlyBearNumbersAreNotJoined() throws Exception {
        parts(new String[] {"disk1.img", "disk2.img"}, 1024, 1024);
        try (OpenImage image = open("disk1.img")) {
            assertEquals(1024, image.bytes());
            remarked(image, "numbered alike");
        }
        List<Path> given = List.of(folder.resolve("disk1.img"), folder.resolve("disk2.img"));
        try (OpenImage image = Images.open(given.get(0), OpenOptions.DEFAULT.withParts(given))) {
            assertArrayEquals(TestFiles.numbers(0, 2048), image.window(0, 2048).bytes(0, 2048));
        }
    }

    @Test
    void aSinglePartCanBeOpenedAlone() throws Exception {
        parts(new String[] {"disk.001", "disk.002"}, 1024, 1024);
        try (OpenImage image = Images.open(folder.resolve("disk.002"), OpenOptions.DEFAULT.withAlone(true))) {
            assertArrayEquals(TestFiles.numbers(1024, 1024), image.window(0, 1024).bytes(0, 1024));
            assertEquals(List.of(), image.remarks());
        }
    }

    @Test
    void aMissingMiddlePartIsUnread() throws Exception {
        parts(new String[] {"d.00", "d.01", "-", "d.03"}, 3000, 3000, 3000, 500);
        try (OpenImage image = open("d.00")) {
            assertEquals(9500, image.bytes());
            remarked(image, "Part 2 is missing");
            assertEquals("[11..17]", image.inState(ReadState.UNREAD, image.all()).toString());
            Window window = image.window(0, 9216);
            assertEquals("[11..17]", window.missing(0, 9216).toString());
            assertEquals(0, window.raw(11 * 512, 1)[0], "a sector that lacks bytes shows none");
            assertArrayEquals(TestFiles.numbers(9216, 284), image.window(9216, 284).bytes(0, 284));
            assertEquals(ReadState.UNREAD, image.state(14));
            assertTrue(image.parts().get(2).missing());
            assertEquals(Optional.empty(), image.fileByte(7000));
            assertEquals(new FilePlace(folder.resolve("d.03"), 200), image.fileByte(9200).orElseThrow());
        }
    }

    @Test
    void oddSizesAreToldAndBytesStayWhereTheyBelong() throws Exception {
        parts(new String[] {"d.1", "d.2", "d.3", "d.4"}, 999, 999, 500, 1200);
        try (OpenImage image = open("d.1")) {
            remarked(image, "d.3 has 500 bytes, other parts have 999");
            remarked(image, "The last part, d.4, has 1,200 bytes");
            assertArrayEquals(TestFiles.numbers(0, 3698), image.window(0, 3698).bytes(0, 3698));
        }
        Files.write(folder.resolve("d.2"), new byte[0]);
        try (OpenImage image = open("d.1")) {
            remarked(image, "d.2 is empty");
        }
    }

    @Test
    void twoFilesWithOneNumberAreTold() throws Exception {
        parts(new String[] {"d.001", "d.002", "d.2"}, 512, 512, 512);
        try (OpenImage image = open("d.001")) {
            assertEquals(1024, image.bytes());
            remarked(image, "d.2 bears the number of another part");
            assertEquals("d.002", image.parts().get(1).file().getFileName().toString());
        }
    }

    @Test
    void numbersFarApartAreAnotherNumbering() throws Exception {
        parts(new String[] {"scan.1", "scan.20240101"}, 512, 512);
        try (OpenImage image = open("scan.1")) {
            assertEquals(512, image.bytes());
        }
    }

    @Test
    void numbersThatBeginLateAreTold() throws Exception {
        parts(new String[] {"d.5", "d.6"}, 512, 512);
        try (OpenImage image = open("d.5")) {
            remarked(image, "The numbers begin with 5");
        }
    }

    @Test
    void partsOfFourGibibytesMinusOneByteAreJoinedSparse() throws Exception {
        long size = (1L << 32) - 1; // the largest file of FAT32; Microsoft FAT specification, from memory
        for (int i = 1; i <= 3; i++) {
            try (RandomAccessFile file = new RandomAccessFile(folder.resolve("big.00" + i).toFile(), "rw")) {
                file.setLength(size);
                file.seek(size - 3);
                file.write(new byte[] {'e', 'n', (byte) ('0' + i)});
                file.seek(0);
                file.write(new byte[] {(byte) ('0' + i), 'b', 'e'});
            }
        }
        try (OpenImage image = open("big.001")) {
            assertEquals(3 * size, image.bytes());
            assertEquals("en12be", image.window(size - 3, 6).ascii(0, 6));
            assertEquals("en23be", image.window(2 * size - 3, 6).ascii(0, 6));
            assertEquals(new FilePlace(folder.resolve("big.003"), 1), image.fileByte(2 * size + 1).orElseThrow());
        }
    }

    @Test
    void thousandsOfPartsNeedFewOpenFiles() throws Exception {
        for (int i = 0; i < 2000; i++) {
            Files.write(folder.resolve("m." + i), TestFiles.numbers(i * 100L, 100));
        }
        try (OpenImage image = open("m.0")) {
            assertEquals(200_000, image.bytes());
            assertArrayEquals(TestFiles.numbers(0, 200_000), image.window(0, 200_000).bytes(0, 200_000));
            assertTrue(image.openFiles() <= 64, () -> image.openFiles() + " files open");
        }
    }

    @Test
    void aPartListPlacesPartsAndLeavesTheRestUnread() throws Exception {
        Files.write(folder.resolve("first, part.bin"), TestFiles.numbers(0, 4096));
        Files.write(folder.resolve("b.bin"), TestFiles.numbers(16 * 512, 2048));
        Path list = TestFiles.write(folder.resolve("parts.csv"),
                "# made by hand\r\nfirst_lba,sectors,file\r\n16,4,b.bin\r\n0,8,\"first, part.bin\"\r\n24,2,gone.bin\r\n30,4,b.bin\r\n");
        try (OpenImage image = Images.open(list, OpenOptions.DEFAULT.withPartList(list))) {
            assertEquals(34 * 512, image.bytes());
            assertEquals("[8..15, 20..29]", image.inState(ReadState.UNREAD, image.all()).toString());
            assertArrayEquals(TestFiles.numbers(0, 4096), image.window(0, 4096).bytes(0, 4096));
            assertArrayEquals(TestFiles.numbers(8192, 2048), image.window(8192, 2048).bytes(0, 2048));
            remarked(image, "gone.bin does not exist");
            remarked(image, "No part is listed for 8 sectors from LBA 8 on");
        }
    }

    @Test
    void aPartListMayNameTooShortFiles() throws Exception {
        Files.write(folder.resolve("a.bin"), TestFiles.numbers(0, 1000));
        Path list = TestFiles.write(folder.resolve("parts.csv"), "0,4,a.bin\n4,1,a.bin");
        try (OpenImage image = Images.open(list, OpenOptions.DEFAULT.withPartList(list))) {
            assertEquals(5 * 512, image.bytes());
            assertEquals("[1..3]", image.window(0, 2560).missing(0, 2560).toString());
            remarked(image, "line 1: a.bin has 1,000 bytes, 2,048 are needed");
            remarked(image, "line 2: a.bin has 1,000 bytes, its sectors take 512");
        }
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', value = {"0,8,a;4,8,b|lines 2 and 1 both claim LBA 4", "0,8|line 1: three fields", "0,0,a|line 1: first_lba",
        "-1,8,a|line 1: first_lba", "0,9223372036854775807,a|line 1: first_lba", "first_lba,sectors,file|lists no part", "0,\"8,a|line 1"})
    void aBadPartListIsRefusedWithItsLine(String text, String expected) {
        Path list = TestFiles.write(folder.resolve("parts.csv"), text.replace(';', '\n'));
        String sentence = assertThrows(ImageException.class,
                () -> Images.open(list, OpenOptions.DEFAULT.withPartList(list))).getMessage();
        assertTrue(sentence.contains(expected), sentence);
    }

    @Test
    void theOrderOfPartsIsProvenByStructuresAndCorrected() throws Exception {
        List<ImagePart> parts = new ArrayList<>();
        for (int i = 0; i < 4; i++) {
            parts.add(new ImagePart(folder.resolve("p" + i), i, i * 10_000L, 10_000));
        }
        List<PartOrder.Sighting> right = List.of(
                new PartOrder.Sighting(new ByteRange(512, 512), 512, true, "header"),
                new PartOrder.Sighting(new ByteRange(9_728, 512), -1, true, "record across a border"),
                new PartOrder.Sighting(new ByteRange(19_900, 512), -1, false, "damaged record"));
        PartOrder order = PartOrder.of(parts, right);
        assertTrue(order.parts().get(0).proven());
        assertEquals(List.of(true, false, false), order.joined());
        assertEquals(List.of(0, 1, 2, 3), order.proposed());
        List<PartOrder.Sighting> exchanged = List.of(
                new PartOrder.Sighting(new ByteRange(512, 512), 512, true, "header"),
                new PartOrder.Sighting(new ByteRange(10_100, 100), 30_100, true, "record 7"),
                new PartOrder.Sighting(new ByteRange(30_500, 100), 10_500, true, "record 9"));
        PartOrder corrected = PartOrder.of(parts, exchanged);
        assertTrue(corrected.wrong());
        assertEquals(List.of(0, 3, 2, 1), corrected.proposed());
        assertEquals("record 7", corrected.parts().get(1).example());
        assertEquals(20_000, corrected.parts().get(1).shift());
        List<PartOrder.Sighting> contradiction = List.of(
                new PartOrder.Sighting(new ByteRange(10_100, 100), 30_100, true, "a"),
                new PartOrder.Sighting(new ByteRange(20_100, 100), 30_100, true, "b"));
        assertEquals(List.of(0, 1, 2, 3), PartOrder.of(parts, contradiction).proposed());
    }

    /** The largest file of FAT32 has 2^32 - 1 bytes (Microsoft FAT specification, from memory): each part begins one byte earlier in its sector than the one before. */
    @Test
    void partsThatCutSectorsAreOrderedByWhereStructuresBegin() throws Exception {
        long size = (1L << 32) - 1;
        int[] files = {0, 2, 4, 1, 3}; // number of the disk's part that stands in each place
        List<ImagePart> parts = new ArrayList<>();
        List<PartOrder.Grid> grids = new ArrayList<>();
        for (int i = 0; i < files.length; i++) {
            parts.add(new ImagePart(folder.resolve("p" + i), i, i * size, size));
            grids.add(new PartOrder.Grid(i, files[i], 9, "record")); // part n begins n bytes before a border of sectors
        }
        PartOrder order = PartOrder.of(parts, List.of(), grids, List.of());
        assertEquals(List.of(0, 3, 1, 4, 2), order.proposed());
        assertTrue(order.parts().get(0).proven());
        assertTrue(!order.parts().get(1).onGrid() && order.parts().get(1).fits() == 1);
        List<PartOrder.Follow> follows = List.of(new PartOrder.Follow(0, 4, "record"), new PartOrder.Follow(4, 2, "record"));
        assertEquals(List.of(0, 4, 2, 3, 1), PartOrder.of(parts, List.of(), List.of(), follows).proposed(), "nothing moves part 4");
        List<PartOrder.Follow> circle = List.of(new PartOrder.Follow(0, 1, "record"), new PartOrder.Follow(1, 0, "record"));
        assertEquals(List.of(0, 1, 2, 3, 4), PartOrder.of(parts, List.of(), List.of(), circle).proposed());
    }

    @Test
    void partsMayBeMissingByTheWordOfAPerson() throws Exception {
        Files.write(folder.resolve("a.bin"), TestFiles.numbers(0, 1000));
        Files.write(folder.resolve("b.bin"), TestFiles.numbers(2000, 1000));
        List<GivenPart> given = List.of(new GivenPart(folder.resolve("a.bin"), GivenPart.WHOLE), new GivenPart(null, 1000),
                new GivenPart(folder.resolve("b.bin"), GivenPart.WHOLE));
        try (OpenImage image = Images.open(folder.resolve("a.bin"), OpenOptions.DEFAULT.withGivenParts(given))) {
            assertEquals(3000, image.bytes());
            assertEquals("[1..3]", image.inState(ReadState.UNREAD, image.all()).toString());
            assertArrayEquals(TestFiles.numbers(2048, 500), image.window(2048, 500).bytes(0, 500));
            remarked(image, "Part 2 of the image is missing: 1,000 bytes");
            Path list = folder.resolve("list.csv");
            PartList.write(list, image.parts(), 512);
            assertEquals("first_lba,sectors,file,first_byte,bytes\n0,2,\"a.bin\",0,1000\n3,3,\"b.bin\",2000,1000\n", Files.readString(list));
            try (OpenImage again = Images.open(list, OpenOptions.DEFAULT.withPartList(list))) {
                assertEquals(3000, again.bytes());
                assertArrayEquals(TestFiles.numbers(2048, 500), again.window(2048, 500).bytes(0, 500));
                assertEquals("[1..3]", again.inState(ReadState.UNREAD, again.all()).toString());
            }
        }
        assertThrows(IllegalArgumentException.class, () -> new GivenPart(null, GivenPart.WHOLE));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', value = {"0,1,a,0,500;0,1,b,499,10|lines 2 and 1 both claim", "0,1,a,x,500|line 1: first_lba", "0,1,a,5,0|line 1: first_lba"})
    void aPartListWithBytesIsRefusedWithItsLine(String text, String expected) {
        Path list = TestFiles.write(folder.resolve("parts.csv"), text.replace(';', '\n'));
        String sentence = assertThrows(ImageException.class, () -> Images.open(list, OpenOptions.DEFAULT.withPartList(list))).getMessage();
        assertTrue(sentence.contains(expected), sentence);
    }
}
