package sectorglass.image;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.Random;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DumpFormTest {
    private static final int SECTORS = 600;
    @TempDir
    Path folder;

    /** A disk with the landmarks of an MBR and a GPT, and a volume at LBA 63. */
    private static byte[] disk() {
        byte[] disk = new byte[SECTORS * 512];
        new Random(7).nextBytes(disk);
        disk[510] = 0x55;
        disk[511] = (byte) 0xAA;
        put(disk, 512, "EFI PART");
        put(disk, 63 * 512 + 3, "TESTVOLM");
        return disk;
    }

    private static void put(byte[] disk, int at, String text) {
        System.arraycopy(text.getBytes(StandardCharsets.US_ASCII), 0, disk, at, text.length());
    }

    /** Stores a disk in a form, the other way round from reading. */
    private Path store(byte[] disk, DumpForm form, String name) throws Exception {
        byte[] swapped = disk.clone();
        if (form.swapped()) {
            for (int i = 0; i + 1 < swapped.length; i += 2) {
                swapped[i] = disk[i + 1];
                swapped[i + 1] = disk[i];
            }
        }
        ByteArrayOutputStream stored = new ByteArrayOutputStream();
        stored.write(new byte[(int) form.header()]);
        for (int at = (int) form.firstImageByte(); at < swapped.length; at += form.payloadLength()) {
            byte[] sector = new byte[form.storedSector()];
            Arrays.fill(sector, (byte) 0xEE);
            System.arraycopy(swapped, at, sector, form.payloadOffset(), form.payloadLength());
            stored.write(sector);
        }
        stored.write(new byte[(int) form.trailer()]);
        return Files.write(folder.resolve(name), stored.toByteArray());
    }

    private static final DumpForm[] FORMS = {
        DumpForm.PLAIN, DumpForm.PLAIN.withHeader(1000), DumpForm.PLAIN.withSectors(520, 0, 512), DumpForm.PLAIN.withSectors(528, 16, 512),
        DumpForm.PLAIN.withSectors(520, 8, 512).withSwapped(true), DumpForm.PLAIN.withSwapped(true), DumpForm.PLAIN.withTrailer(512),
        DumpForm.PLAIN.withHeader(64).withSectors(4160, 0, 4096).withTrailer(7), DumpForm.PLAIN.withFirstImageByte(63 * 512),
        DumpForm.PLAIN.withFirstImageByte(512 * 8).withSectors(528, 4, 512).withSwapped(true).withHeader(3)};

    @Test
    void everyFormGivesBackTheDisk() throws Exception {
        byte[] disk = disk();
        Random random = new Random(3);
        for (DumpForm form : FORMS) {
            Path file = store(disk, form, "a.img");
            byte[] raw = Files.readAllBytes(file);
            try (OpenImage image = Images.open(file, OpenOptions.DEFAULT.withDumpForm(form).withSectorSize(512))) {
                assertEquals(disk.length, image.bytes(), form::toString);
                int first = (int) form.firstImageByte();
                assertEquals(first == 0 ? SectorRanges.EMPTY : SectorRanges.of(0, first / 512),
                        image.inState(ReadState.UNREAD, image.all()));
                for (int i = 0; i < 40; i++) {
                    int length = random.nextInt(i < 5 ? disk.length - first : 3000) + 1;
                    int at = first + random.nextInt(disk.length - first - length + 1);
                    assertArrayEquals(Arrays.copyOfRange(disk, at, at + length), image.window(at, length).bytes(0, length), form::toString);
                    FilePlace place = image.fileByte(at).orElseThrow();
                    assertEquals(disk[at], raw[(int) place.at()], form::toString);
                }
                if (first > 0) {
                    assertEquals(SectorRanges.of(first / 512 - 1, 1), image.window(first - 512, 1024).missing(0, 1024));
                    assertTrue(image.fileByte(first - 1).isEmpty());
                }
            }
        }
    }

    @Test
    void aFileThatEndsInTheMiddleOfAStoredSectorOrWordGivesTheBytesThatAreThere() throws Exception {
        byte[] disk = disk();
        DumpForm form = DumpForm.PLAIN.withSectors(520, 4, 512).withSwapped(true);
        Path file = store(disk, form, "a.img");
        try (RandomAccessFile cut = new RandomAccessFile(file.toFile(), "rw")) {
            cut.setLength(10 * 520 + 4 + 101);
        }
        try (OpenImage image = Images.open(file, OpenOptions.DEFAULT.withDumpForm(form))) {
            assertEquals(10 * 512 + 101, image.bytes());
            assertArrayEquals(Arrays.copyOfRange(disk, 0, 10 * 512), image.window(0, 5120).bytes(0, 5120));
            assertEquals(SectorRanges.of(10, 1), image.window(5120, 101).missing(0, 101), "the last word has only one byte");
        }
    }

    @Test
    void aFileThatShrinksFailsInEveryForm() throws Exception {
        byte[] disk = disk();
        for (DumpForm form : FORMS) {
            Path file = store(disk, form, "a.img");
            try (OpenImage image = Images.open(file, OpenOptions.DEFAULT.withDumpForm(form).withSectorSize(512))) {
                long keep = form.stored(200 * 512).orElseThrow() & ~1;
                try (RandomAccessFile cut = new RandomAccessFile(file.toFile(), "rw")) {
                    cut.setLength(keep);
                }
                Window window = image.window(150 * 512, 100 * 512);
                assertEquals(ReadState.READ, window.state(49 * 512 - 1), form::toString);
                assertEquals(ReadState.FAILED, window.state(60 * 512), form::toString);
                assertEquals(ReadState.FAILED, window.state(99 * 512), form::toString);
                assertTrue(window.missing(0, 100 * 512).run(0).first() >= 192, () -> form + ": " + window.missing(0, 100 * 512));
            }
        }
    }

    @Test
    void formsAreFoundFromLandmarksAndToldWithTheReason() throws Exception {
        byte[] disk = disk();
        for (DumpForm form : new DumpForm[] {FORMS[1], FORMS[2], FORMS[3], FORMS[4], FORMS[5], DumpForm.PLAIN.withHeader(512)}) {
            try (OpenImage image = Images.open(store(disk, form, "a.img"))) {
                assertEquals(form, image.dumpForm().form());
                assertTrue(image.dumpForm().reason().contains("GPT signature at stored byte"), image.dumpForm()::reason);
                assertTrue(image.remarks().stream().anyMatch(r -> r.contains("do not hold the disk as it is")));
                assertEquals("EFI PART", image.window(512, 8).ascii(0, 8));
            }
        }
        try (OpenImage image = Images.open(store(disk, DumpForm.PLAIN, "a.img"))) {
            assertTrue(image.dumpForm().form().plain());
            assertTrue(image.remarks().isEmpty(), image.remarks()::toString);
        }
    }

    @Test
    void aPlainDiskWithAnotherDiskInsideStaysPlain() throws Exception {
        byte[] outer = new byte[SECTORS * 512 * 2];
        byte[] inner = disk();
        System.arraycopy(inner, 0, outer, 64 * 512, inner.length);
        outer[510] = 0x55;
        outer[511] = (byte) 0xAA;
        put(outer, 512, "EFI PART");
        try (OpenImage image = Images.open(Files.write(folder.resolve("a.img"), outer))) {
            assertTrue(image.dumpForm().form().plain());
        }
        byte[] fourK = new byte[1 << 16];
        fourK[510] = 0x55;
        fourK[511] = (byte) 0xAA;
        put(fourK, 4096, "EFI PART");
        try (OpenImage image = Images.open(Files.write(folder.resolve("a.img"), fourK))) {
            assertTrue(image.dumpForm().form().plain(), "a sector size is not a dump form");
        }
    }

    @Test
    void aStartInTheMiddleOfTheDiskIsOfferedOnly() throws Exception {
        byte[] disk = disk();
        put(disk, 0, "volume 8");
        try (OpenImage image = Images.open(Files.write(folder.resolve("a.img"), disk))) {
            assertEquals(0, image.dumpForm().form().firstImageByte());
            assertTrue(image.dumpFormClues().stream().anyMatch(clue -> clue.form().firstImageByte() == 4096));
        }
    }

    @Test
    void aFormSetByHandWins() throws Exception {
        byte[] disk = disk();
        Path file = store(disk, FORMS[2], "a.img");
        try (OpenImage image = Images.open(file, OpenOptions.DEFAULT.withDumpForm(DumpForm.PLAIN).withLocale(Locale.GERMAN))) {
            assertEquals(SECTORS * 520, image.bytes());
            assertEquals("der Datenträger, wie er ist: von Hand gesetzt", image.dumpForm().reason());
        }
        String nothing = assertThrows(ImageException.class, () -> Images.open(file,
                OpenOptions.DEFAULT.withDumpForm(DumpForm.PLAIN.withHeader(1 << 20)))).getMessage();
        assertTrue(nothing.contains("leaves none"), nothing);
        assertThrows(IllegalArgumentException.class, () -> DumpForm.PLAIN.withSectors(520, 9, 512));
        assertFalse(FORMS[2].plain());
    }

    @Test
    void theSectorSizeComesFromTheHeaviestCluesAndConflictsAreTold() throws Exception {
        byte[] disk = new byte[8 * 4096];
        put(disk, 0, "sectors4");
        try (OpenImage image = Images.open(Files.write(folder.resolve("a.img"), disk))) {
            assertEquals(4096, image.sectorSize());
            assertEquals("text at byte 0", image.sectorSizeReason());
            assertEquals(1, image.sectorSizeChoice().against().size());
            assertTrue(image.remarks().stream().anyMatch(r -> r.contains("another text")), image.remarks()::toString);
        }
        put(disk, 0, "unread  ");
        Path file = Files.write(folder.resolve("a.img"), disk);
        try (OpenImage image = Images.open(file)) {
            assertEquals(512, image.sectorSize(), "a clue that needs unread bytes says nothing");
        }
        Path map = TestFiles.write(folder.resolve("m.csv"), "0,16,read");
        try (OpenImage image = Images.open(file, OpenOptions.DEFAULT.withReadMap(map))) {
            assertEquals(2048, image.sectorSize());
            assertTrue(image.sectorSizeReason().contains("the read map names 16 sectors"), image::sectorSizeReason);
        }
    }
}
