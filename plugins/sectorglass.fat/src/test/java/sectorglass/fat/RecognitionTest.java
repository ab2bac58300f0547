package sectorglass.fat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

import sectorglass.disk.Level;
import sectorglass.disk.VolumeInfo;
import sectorglass.disk.VolumeSite;
import sectorglass.testvolumes.DiskFile;

/** Recognition and the numbers that follow from the boot sector, on volumes made by mkfs.fat 4.2. */
class RecognitionTest {

    @ParameterizedTest
    @CsvSource({"f12,fat12,33,2847,512", "f16,fat16,100,8167,2048", "f32,fat32,1292,80628,512", "f12k,fat12,7,2041,4096",
            "f16k,fat16,14,8185,8192", "f32k,fat32,164,67420,4096"})
    void theBootSectorGivesTypeAndPlaces(String name, String kind, long firstData, long clusters, long clusterBytes) {
        FatVolume volume = Volumes.volume(Volumes.open(name));
        Geometry geometry = volume.found().geometry();
        VolumeInfo info = volume.info();
        assertEquals(kind, info.kind());
        assertEquals(firstData, geometry.firstData());
        assertEquals(clusters, geometry.clusters());
        assertEquals(clusterBytes, info.clusterBytes());
        assertEquals("TESTVOL", info.label());
        assertEquals("TESTVOL", info.bootLabel());
        assertEquals("1234-ABCD", info.serial());
        assertEquals(Found.Source.MAIN, volume.found().source());
    }

    /** minfo and fsck.fat -v: 13 of 2847, 6 of 8167, 14 of 80628 clusters are used. */
    @ParameterizedTest
    @CsvSource({"f12,13", "f16,6", "f32,14", "f32k,6"})
    void usedBytesAgreeWithFsck(String name, long used) {
        VolumeInfo info = Volumes.volume(Volumes.open(name)).info();
        assertEquals(used * info.clusterBytes(), info.usedBytes());
    }

    @ParameterizedTest
    @ValueSource(strings = {"f12", "f16", "f32", "f12k", "f16k", "f32k"})
    void soundVolumesPassTheQuickCheck(String name) {
        assertEquals("", Volumes.listed(Volumes.check(Volumes.open(name), Level.QUICK)));
    }

    @ParameterizedTest
    @CsvSource({"f32,8", "f32k,64"})
    void theBackupServesWhereTheBootSectorWasNotRead(String name, long ignored) {
        DiskFile image = Volumes.open(name).lose(0, 1);
        FatVolume volume = Volumes.volume(image);
        assertEquals(Found.Source.BACKUP, volume.found().source());
        assertEquals("TESTVOL", volume.info().label());
        String listed = Volumes.listed(Volumes.check(image, Level.QUICK));
        assertTrue(listed.contains("fat32.backup-equals-boot not checked") && listed.contains("fat.closed-cleanly not checked"), listed);
        assertTrue(listed.contains("fat.boot-sector-size-legal not checked"), listed);
        assertEquals(3, listed.lines().count(), listed);
    }

    @ParameterizedTest
    @ValueSource(strings = {"f12", "f16", "f12k", "f16k"})
    void theLayoutIsGuessedWhereTheBootSectorWasNotRead(String name) {
        Geometry known = Volumes.volume(Volumes.open(name)).found().geometry();
        FatVolume volume = Volumes.volume(Volumes.open(name).lose(0, 1));
        assertEquals(Found.Source.GUESS, volume.found().source());
        Geometry guessed = volume.found().geometry();
        assertEquals(known.firstData(), guessed.firstData());
        assertEquals(known.clusterBytes(), guessed.clusterBytes());
        assertEquals(known.kind(), guessed.kind());
        assertEquals("TESTVOL", volume.info().label());
        assertTrue(volume.info().remarks().get(0).contains("assumption"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"EXFAT   ", "NTFS    "})
    void aSectorOfAnotherFileSystemIsNotClaimed(String name) {
        DiskFile image = Volumes.open("f16");
        for (int i = 0; i < 8; i++) {
            image.plant(3 + i, name.charAt(i));
        }
        assertTrue(new FatVolumeProvider().recognise(new VolumeSite(image, image.all(), null)).isEmpty());
    }

    @Test
    void aVolumeThatWasNotClosedSaysSo() {
        assertEquals(java.util.List.of(), Volumes.volume(Volumes.open("f16")).info().remarks());
        assertEquals(java.util.List.of("not closed cleanly"), Volumes.volume(Volumes.open("f16").plant16(2050, 0x7FFF)).info().remarks());
    }
}
