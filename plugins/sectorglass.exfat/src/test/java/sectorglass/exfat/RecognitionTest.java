package sectorglass.exfat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import sectorglass.disk.Level;
import sectorglass.disk.VolumeInfo;
import sectorglass.testvolumes.DiskFile;

/** Recognition and the boot region, on a volume made by mkfs.exfat 1.2.0. */
class RecognitionTest {

    @Test
    void theBootSectorGivesPlaceAndNames() {
        ExfatVolume volume = Volumes.volume(Volumes.open());
        Geometry geometry = volume.found().geometry();
        VolumeInfo info = volume.info();
        assertEquals(992, geometry.clusters());
        assertEquals(0x23000, geometry.clusterByte(geometry.rootCluster()));
        assertEquals("EXVOL", info.label());
        assertEquals("1234-ABCD", info.serial());
        assertEquals(4096, info.clusterBytes());
        assertEquals(13 * 4096, info.usedBytes());
        assertEquals(8192 * 512, info.bytes());
    }

    /** The sum mkfs.exfat stored, B11F579E, and the vectors of the rotate-and-add step. */
    @Test
    void theChecksumIsTheOneStored() {
        int sum = 0;
        for (int b = 1; b <= 4; b++) {
            sum = BootRegion.step(sum, b);
        }
        assertEquals(0x20000006, sum);
        BootRegion region = BootRegion.of(Volumes.volume(Volumes.open()).site(), BootRegion.MAIN, 512);
        assertEquals(0xB11F579E, region.checksum());
        assertTrue(region.sound());
    }

    @Test
    void soundVolumesPassTheQuickCheck() {
        assertEquals("", Volumes.listed(Volumes.check(Volumes.open(), Level.QUICK)));
        assertEquals("", Volumes.listed(Volumes.check(DiskFile.of(Volumes.empty(), 512), Level.QUICK)));
    }

    @Test
    void theBackupRegionServesWhereTheBootSectorWasNotRead() {
        DiskFile image = Volumes.open().lose(0, 1);
        ExfatVolume volume = Volumes.volume(image);
        assertEquals(Found.Source.BACKUP, volume.found().source());
        assertEquals("EXVOL", volume.info().label());
        String listed = Volumes.listed(Volumes.check(image, Level.QUICK));
        assertEquals("exfat.name-and-zero-area exfat.main-checksum exfat.backup-equals-main", String.join(" ", listed.lines().map(l -> l.split(" ")[0]).toList()), listed);
    }

    /** The backup put in place of the unread sector fits the checksum of the main region: that proves it. */
    @Test
    void theBackupIsProvedByTheChecksumOfTheMainRegion() {
        VolumeInfo info = Volumes.volume(Volumes.open().lose(0, 1)).info();
        assertTrue(info.remarks().get(0).contains("fits the checksum of the main region"), info.remarks().toString());
    }

    /** A check over bytes that were not read stays open; repeats of the checksum that differ are wrong all the same. */
    @ParameterizedTest
    @CsvSource({"3", "9", "10"})
    void theChecksumOfARegionReadInPartStaysOpen(long sector) {
        String listed = Volumes.listed(Volumes.check(Volumes.open().lose(sector, 1), Level.QUICK));
        assertTrue(listed.contains("exfat.main-checksum not checked") && listed.contains("exfat.backup-equals-main not checked"), listed);
        listed = Volumes.listed(Volumes.check(Volumes.open().lose(sector, 1).plant(11 * 512 + 200, 1), Level.QUICK));
        assertTrue(listed.contains("exfat.main-checksum unusable @5832"), listed);
    }

    @Test
    void zerosInPlaceOfTheBootRegionAreDamageAndTheBackupServes() {
        byte[] image = Volumes.filled();
        Arrays.fill(image, 0, 512, (byte) 0);
        ExfatVolume volume = Volumes.volume(DiskFile.of(image, 512));
        assertEquals(Found.Source.BACKUP, volume.found().source());
        String listed = Volumes.listed(Volumes.check(DiskFile.of(image, 512), Level.QUICK));
        assertTrue(listed.startsWith("exfat.name-and-zero-area unusable @3+8"), listed);
        assertEquals(1, listed.lines().count(), listed);
    }
}
