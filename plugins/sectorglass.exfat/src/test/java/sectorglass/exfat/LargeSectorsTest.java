package sectorglass.exfat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Content;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.Level;
import sectorglass.image.Progress;
import sectorglass.testkit.Tool;
import sectorglass.testvolumes.DiskFile;

/**
 * A volume with sectors of 4096 bytes, written by hand after the Microsoft exFAT specification, sections 2 to 7: mkfs.exfat 1.2.0 makes
 * none in a file. Its boot checksum was computed once by another program: A29D1830.
 */
class LargeSectorsTest {

    private static final int SECTOR = 4096;
    private static final int HEAP = 32 * SECTOR;
    private static final int ROOT = cluster(5);

    private static int cluster(int number) {
        return HEAP + (number - 2) * 2 * SECTOR;
    }

    private static void le(byte[] image, int at, int width, long value) {
        for (int i = 0; i < width; i++) {
            image[at + i] = (byte) (value >> 8 * i);
        }
    }

    private static void boot(byte[] image, int at) {
        Volumes.put(image, at, new byte[] {(byte) 0xEB, 0x76, (byte) 0x90});
        Volumes.put(image, at + 3, "EXFAT   ".getBytes(StandardCharsets.US_ASCII));
        le(image, at + 72, 8, 4096);
        le(image, at + 80, 4, 24);
        le(image, at + 84, 4, 8);
        le(image, at + 88, 4, 32);
        le(image, at + 92, 4, 2032);
        le(image, at + 96, 4, 5);
        le(image, at + 100, 4, 0x1234ABCDL);
        le(image, at + 104, 2, 0x100);
        image[at + 108] = 12;
        image[at + 109] = 1;
        image[at + 110] = 1;
        image[at + 111] = (byte) 0x80;
        Arrays.fill(image, at + 120, at + 510, (byte) 0xF4);
        le(image, at + 510, 2, 0xAA55);
        for (int sector = 1; sector <= 8; sector++) {
            le(image, at + sector * SECTOR + SECTOR - 4, 4, 0xAA550000L);
        }
        int sum = 0;
        for (int i = 0; i < 11 * SECTOR; i++) {
            if (i != 106 && i != 107 && i != 112) {
                sum = BootRegion.step(sum, image[at + i] & 0xFF);
            }
        }
        for (int i = 0; i < SECTOR / 4; i++) {
            le(image, at + 11 * SECTOR + i * 4, 4, sum);
        }
    }

    /** The files of the other volume in clusters of 8 KiB: frag.bin lies in 10 and 9, Sub in 11. */
    private static byte[] volume() {
        byte[] small = Volumes.filled();
        byte[] image = new byte[16 << 20];
        boot(image, 0);
        boot(image, 12 * SECTOR);
        long[][] fat = {{0, 0xFFFFFFF8L}, {1, -1}, {2, -1}, {3, -1}, {5, -1}, {9, -1}, {10, 9}};
        for (long[] entry : fat) {
            le(image, 24 * SECTOR + (int) entry[0] * 4, 4, entry[1]);
        }
        le(image, cluster(2), 2, 0x07FB);
        System.arraycopy(small, 0x21000, image, cluster(3), 5836);
        System.arraycopy(small, 0x23000, image, ROOT, 4096);
        le(image, ROOT + 32 + 24, 8, 254);
        System.arraycopy(small, 0x2B000, image, cluster(11), 4096);
        set(image, cluster(11), 12, -1);
        set(image, ROOT + 0x200, 11, 8192);
        set(image, ROOT + 0x260, 13, -1);
        System.arraycopy(small, Volumes.cluster(6), image, cluster(6), 4096);
        System.arraycopy(small, Volumes.cluster(7), image, cluster(7), 3 * 4096);
        System.arraycopy(small, Volumes.cluster(7), image, cluster(10), 8192);
        System.arraycopy(small, Volumes.cluster(9), image, cluster(9), 4096);
        System.arraycopy(small, Volumes.cluster(14), image, cluster(12), 4096);
        System.arraycopy(small, Volumes.cluster(15), image, cluster(13), 4096);
        return image;
    }

    /** Gives a set another first cluster and length. */
    private static void set(byte[] image, int at, int first, long length) {
        le(image, at + 32 + 20, 4, first);
        if (length >= 0) {
            le(image, at + 32 + 8, 8, length);
            le(image, at + 32 + 24, 8, length);
        }
        if ((image[at] & 0x80) != 0) {
            Volumes.fixSet(image, at);
        }
    }

    private static String content(Files files, String path) {
        FileTree tree = files.tree(Progress.NONE);
        Content content = files.content(tree.find(path).orElseThrow(), "");
        byte[] bytes = new byte[(int) content.bytes()];
        assertTrue(content.read(0, bytes, 0, bytes.length).isEmpty());
        java.util.zip.CRC32 crc = new java.util.zip.CRC32();
        crc.update(bytes);
        return String.format("%08X", crc.getValue());
    }

    @Test
    void theVolumeIsTheOneThatWasMeantAndSound(@TempDir Path folder) throws IOException {
        byte[] image = volume();
        assertEquals("30189DA2", String.format("%08X", java.nio.ByteBuffer.wrap(image, 11 * SECTOR, 4).getInt()));
        assertEquals("FEA1", String.format("%04X", java.nio.ByteBuffer.wrap(image, ROOT + 0x202, 2).getShort()));
        DiskFile disk = DiskFile.of(image, SECTOR);
        assertEquals("", Volumes.listed(Volumes.check(disk, Level.FULL)));
        ExfatVolume volume = Volumes.volume(disk);
        assertEquals("EXVOL", volume.info().label());
        assertEquals("1234-ABCD", volume.info().serial());
        assertEquals(8192L, volume.info().clusterBytes());
        Files files = volume.capability(Files.class).orElseThrow();
        assertEquals("FB60E962", content(files, "hello.txt"));
        assertEquals("279EB882", content(files, "Sub/été note.txt"));
        assertEquals(content(files, "A Long File Name.bin"), content(files, "frag.bin"));
        assertTrue(files.tree(Progress.NONE).withoutFolder() < 0);
        Path file = java.nio.file.Files.write(folder.resolve("large.img"), image);
        String said = Tool.run("fsck.exfat", "-n", file.toString()).ok();
        assertTrue(said.contains("clean. directories 2, files 5"), said);
    }

    @Test
    void faultsAreFoundAtTheirBytes() {
        byte[] loop = volume();
        le(loop, 24 * SECTOR + 36, 4, 10);
        assertTrue(Volumes.listed(Volumes.check(DiskFile.of(loop, SECTOR), Level.FULL))
                .startsWith("exfat.chain-sound at risk @" + (24 * SECTOR + 36) + "+4"), "loop");
        byte[] sum = volume();
        sum[12 * SECTOR - 1] ^= 1;
        assertTrue(Volumes.listed(Volumes.check(DiskFile.of(sum, SECTOR), Level.FULL)).startsWith("exfat.main-checksum unusable"), "last word");
        byte[] free = volume();
        free[cluster(2)] &= ~0x10;
        assertTrue(Volumes.listed(Volumes.check(DiskFile.of(free, SECTOR), Level.FULL))
                .startsWith("exfat.bitmap-covers-owners at risk @" + cluster(2)), "bitmap");
    }

    @Test
    void theBackupGivesTheLayoutWhereSectorZeroWasNotRead() {
        DiskFile disk = DiskFile.of(volume(), SECTOR).lose(0, 1);
        ExfatVolume volume = Volumes.volume(disk);
        assertEquals(Found.Source.BACKUP, volume.found().source());
        assertEquals("FB60E962", content(volume.capability(Files.class).orElseThrow(), "hello.txt"));
        assertTrue(Volumes.check(disk, Level.FULL).listed().stream().allMatch(f -> f.severity() == null), "nothing fails for what was not read");
    }
}
