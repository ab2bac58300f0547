package sectorglass.make;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.UUID;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import sectorglass.testkit.Tool;

/**
 * Maps against bytes that other programs wrote: the GPT of 512-byte sectors and the MBR were made with sfdisk 2.38.1, the GPT of
 * 4096-byte sectors was built with Python's zlib.crc32 and found sound by fdisk, partx and parted.
 */
class MapVectorTest {
    private static final long MIB = 1 << 20;
    private static final UUID DISK = UUID.fromString("01234567-89ab-cdef-0123-456789abcdef");
    private static final UUID LINUX = UUID.fromString("0fc63daf-8483-4772-8e79-3d69d8477de4");
    private static final UUID FIRST = UUID.fromString("11111111-2222-3333-4455-66778899aabb");
    private static final UUID SECOND = UUID.fromString("deadbeef-cafe-4bad-8f00-0123456789ab");

    @TempDir
    private Path folder;

    private static DiskDescription gpt(int sectorSize, long start1, long end1, long start2, long end2) {
        return DiskDescription.gpt(64 * MIB / sectorSize, sectorSize, 1, DISK,
                PartitionDescription.gpt(start1, end1 - start1 + 1, PartitionDescription.EFI_SYSTEM, FIRST, "EFI-A", 0),
                PartitionDescription.gpt(start2, end2 - start2 + 1, LINUX, SECOND, "Datenträger", 4));
    }

    private byte[] made(DiskDescription disk) throws IOException {
        Path file = folder.resolve("disk.img");
        DiskMaker.withoutPlaces().make(disk, file);
        return Files.readAllBytes(file);
    }

    @Test
    void gptEqualsTheWholeFileThatSfdiskMakes() throws Exception {
        byte[] bytes = made(gpt(512, 2048, 34815, 34816, 131038));
        // SHA-256 of the 64 MiB file that sfdisk 2.38.1 and a byte-by-byte construction both gave
        assertEquals("ad2ca8204da707fa46cca90390ef7db8715cc50236c9f9dc7a91ae15cd7ac282",
                HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes)));
        assertEquals("b7151ad4", hex(bytes, 512 + 16, 4), "primary header CRC D41A15B7, little-endian");
        assertEquals("8e600766", hex(bytes, 512 + 88, 4), "array CRC 6607608E");
        assertEquals("72d9165a", hex(bytes, 67108352 + 16, 4), "backup header CRC 5A16D972");
        assertEquals("00000200eeffffff01000000ffff0100", hex(bytes, 446, 16), "protective entry");
    }

    @Test
    void gptOf4096ByteSectorsHasTheWorkedChecksums() throws IOException {
        byte[] bytes = made(gpt(4096, 256, 4351, 4352, 16378));
        assertEquals("e0565e66", hex(bytes, 4096 + 88, 4), "array CRC 665E56E0");
        assertEquals("44f3a1be", hex(bytes, 4096 + 16, 4), "primary header CRC BEA1F344");
        assertEquals("235d855e", hex(bytes, 16383 * 4096 + 16, 4), "backup header CRC 5E855D23");
        assertEquals("ff3f0000", hex(bytes, 446 + 12, 4), "protective size 16383");
    }

    @Test
    void mbrAndChainEqualTheEntriesThatSfdiskWrote() throws IOException {
        byte[] bytes = made(DiskDescription.mbr(524288, 512, 1, 0x1a2b3c4d,
                PartitionDescription.primary(2048, 65536, 0x83).asActive(),
                PartitionDescription.primary(67584, 65536, 0x0C),
                PartitionDescription.container(133120, 389120, 0x05),
                PartitionDescription.logical(135168, 40960, 0x83),
                PartitionDescription.logical(178176, 40960, 0x82),
                PartitionDescription.logical(221184, 61440, 0x07)));
        assertEquals("4d3c2b1a0000", hex(bytes, 440, 6));
        assertEquals("80202100833430040008000000000100", hex(bytes, 446, 16));
        assertEquals("003431040c4901080008010000000100", hex(bytes, 462, 16));
        assertEquals("00490208058121200008020000f00500", hex(bytes, 478, 16));
        assertEquals("0069220883f52b0a0008000000a00000", hex(bytes, 68157886, 16));
        assertEquals("00f52c0a05a3160d00a8000000a80000", hex(bytes, 68157902, 16));
        assertEquals("00170d0b82a3160d0008000000a00000", hex(bytes, 90177982, 16));
        assertEquals("00a3170d059706110050010000f80000", hex(bytes, 90177998, 16));
        assertEquals("00c3370d079706110008000000f00000", hex(bytes, 112198078, 16));
        assertArrayEquals(new byte[48], java.util.Arrays.copyOfRange(bytes, 112198094, 112198142), "end of the chain");
        for (long record : new long[] {0, 133120, 176128, 219136}) {
            assertEquals("55aa", hex(bytes, (int) record * 512 + 510, 2));
        }
    }

    @ParameterizedTest(name = "LBA {0} = {1} (255 heads, 63 sectors; rows as sfdisk 2.38.1 prints them)")
    @CsvSource({"1, 000200", "62, 003f00", "63, 010100", "2047, 202000", "2048, 202100", "16064, fe3f00", "16065, 000101",
        "131071, 282008", "1048576, 450541", "16434494, feffFE", "16450559, feffff", "16450560, feffff"})
    void packsCylinderHeadSector(long lba, String bytes) throws IOException {
        byte[] made = Files.readAllBytes(first(DiskDescription.mbr(lba + 1, 512, 1, 1, PartitionDescription.primary(lba, 1, 6))));
        assertEquals(bytes.toLowerCase(java.util.Locale.ROOT), hex(made, 447, 3));
    }

    /** The first sectors only, lest a whole sparse file be read. */
    private Path first(DiskDescription disk) throws IOException {
        Path file = folder.resolve("chs.img");
        DiskMaker.withoutPlaces().make(disk, file);
        try (var channel = java.nio.channels.FileChannel.open(file, java.nio.file.StandardOpenOption.WRITE)) {
            channel.truncate(512);
        }
        return file;
    }

    @Test
    void partitionUtilitiesFindTheMapsSound() throws IOException {
        Path file = folder.resolve("disk.img");
        DiskMaker.withoutPlaces().make(gpt(512, 2048, 34815, 34816, 131038), file);
        assertSound(file);
        String listed = Tool.run("partx", "-o", "NR,START,END", "-g", "--show", file.toString()).ok();
        assertEquals("1 2048 34815 2 34816 131038", listed.trim().replaceAll("\\s+", " "));
        PartitionDescription mirrored = PartitionDescription.gpt(2048, 32768, PartitionDescription.BASIC_DATA, FIRST, "a", 0)
                .mirroredAs(0x07);
        DiskDescription hybrid = DiskDescription.gpt(131072, 512, 1, DISK, mirrored).with(MapKind.GPT_HYBRID);
        DiskMaker.withoutPlaces().make(hybrid, file);
        assertSound(file);
        byte[] sector = java.util.Arrays.copyOf(Files.readAllBytes(file), 512);
        assertEquals("00000200eeffffff01000000ff070000", hex(sector, 446, 16), "EE covers LBA 1 to 2047");
        assertEquals(0x07, sector[462 + 4]);
    }

    private static void assertSound(Path file) {
        String verdict = Tool.run("sfdisk", "-V", file.toString()).ok();
        assertEquals(true, verdict.contains("No errors detected."), verdict);
    }

    @Test
    void otherUtilitiesReadSectorsOf4096Bytes() throws IOException {
        Path file = folder.resolve("disk.img");
        DiskMaker.withoutPlaces().make(gpt(4096, 256, 4351, 4352, 16378), file);
        String parted = Tool.run(java.util.Map.of("PARTED_SECTOR_SIZE", "4096"), null, 20, "parted", "-ms", file.toString(), "unit",
                "s", "print").ok();
        assertEquals(true, parted.contains("1:256s:4351s:4096s:"), parted);
        assertEquals(true, parted.contains("2:4352s:16378s:12027s:"), parted);
        String fdisk = Tool.run(java.util.Map.of(), "v\nq\n", 20, "fdisk", "-b", "4096", file.toString()).ok();
        assertEquals(true, fdisk.contains("No errors detected."), fdisk);
    }

    private static String hex(byte[] bytes, int at, int length) {
        return HexFormat.of().formatHex(bytes, at, at + length);
    }
}
