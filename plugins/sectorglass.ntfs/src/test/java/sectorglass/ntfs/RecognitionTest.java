package sectorglass.ntfs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Level;
import sectorglass.disk.Role;
import sectorglass.disk.VolumeInfo;
import sectorglass.disk.VolumeSite;
import sectorglass.image.SectorRanges;
import sectorglass.testkit.Corpus;
import sectorglass.verify.Finding;
import sectorglass.verify.Severity;

class RecognitionTest {
    @TempDir
    static Path folder;

    private static MemoryImage files() throws IOException {
        return MemoryImage.of(Volumes.withFiles(folder));
    }

    @Test
    void volumeOfTheProbeSuiteIsRecognisedWithItsLabelAndSerial() throws IOException {
        Path packed = Corpus.folder("probe-volumes").resolve("ntfs.img.xz");
        VolumeInfo info = Volumes.open(MemoryImage.of(Corpus.unpack(packed, folder))).info();
        String expected = Files.readString(Corpus.folder("probe-volumes").resolve("ntfs.expected"));
        assertTrue(expected.contains("ID_FS_LABEL=" + info.label().replace(' ', '_') + "\n"), info.label());
        assertTrue(expected.contains("ID_FS_UUID=" + info.serial() + "\n"), info.serial());
        assertTrue(expected.contains("ID_FS_FSSIZE=" + info.bytes() + "\n"), "" + info.bytes());
        assertTrue(expected.contains("ID_FS_FSBLOCKSIZE=" + info.clusterBytes() + "\n"), "" + info.clusterBytes());
    }

    @Test
    void volumeWithSmallClustersIsRecognised() {
        Path packed = Corpus.files("ntfs-volumes", ".xz").get(0);
        NtfsVolume volume = Volumes.open(MemoryImage.of(Corpus.unpack(packed, folder)));
        assertEquals("mylabel", volume.info().label());
        assertEquals(512L, volume.info().clusterBytes());
        assertTrue(volume.roles().stream().anyMatch(r -> r.role() == Role.Kind.USER_FOLDERS), volume.roles().toString());
    }

    /** Values by mkntfs -T and ntfscp under a fixed clock; used clusters as ntfscluster counts them (16383 - 15712). */
    @Test
    void factsOfAVolumeAreThoseItWasMadeWith() throws IOException {
        VolumeInfo info = Volumes.open(files()).info();
        assertEquals("FIXED", info.label());
        assertEquals("34F5EE1202469FF7", info.serial());
        assertEquals(131071L * 512, info.bytes());
        assertEquals(131072, info.range().count());
        assertEquals(671L * 4096, info.usedBytes());
        assertEquals(Instant.parse("2024-01-02T03:04:05Z"), info.latest());
        assertEquals(List.of(), info.remarks());
    }

    @Test
    void backupBootSectorServesWhereTheFirstIsUnreadOrDestroyed() throws IOException {
        MemoryImage image = files();
        for (MemoryImage damaged : List.of(image.without(SectorRanges.of(0, 1)), image.with(0, new int[512]))) {
            NtfsVolume volume = Volumes.open(damaged);
            assertEquals("34F5EE1202469FF7", volume.info().serial());
            assertEquals("FIXED", volume.info().label());
            assertEquals(1, volume.info().remarks().size());
        }
        List<Finding> unread = Volumes.verify(image.without(SectorRanges.of(0, 1)), Level.QUICK).listed();
        assertTrue(unread.stream().allMatch(f -> f.severity() == null), unread.toString());
        assertTrue(Volumes.verify(image.with(0, new int[512]), Level.QUICK).listed().stream()
                .anyMatch(f -> f.check().equals("ntfs.boot.oem-id") && f.severity() == Severity.UNUSABLE));
    }

    @Test
    void mirrorServesWhereRecordZeroIsGone() throws IOException {
        MemoryImage image = files();
        NtfsVolume volume = Volumes.open(image.without(SectorRanges.of(32, 1)));
        assertEquals(FileTable.Origin.MIRROR, volume.table().origin());
        assertEquals(68, volume.table().records());
        NtfsVolume assumed = Volumes.open(image.without(SectorRanges.of(List.of(new sectorglass.image.SectorRange(32, 2),
                new sectorglass.image.SectorRange(8191 * 8, 8)))));
        assertEquals(FileTable.Origin.ASSUMED, assumed.table().origin());
        assertTrue(assumed.table().records() >= 68);
    }

    @Test
    void aVolumeWithoutAnyBootSectorIsMeasuredByItsRecords() throws IOException {
        MemoryImage image = files();
        MemoryImage bare = image.with(0, new int[512]).with(67108352, new int[512]);
        NtfsVolume volume = Volumes.open(bare);
        assertEquals(4096L, volume.info().clusterBytes());
        assertEquals("FIXED", volume.info().label());
        assertEquals(16383L * 4096, volume.info().bytes());
        assertEquals(68, volume.table().records());
        List<Finding> listed = Volumes.verify(bare, Level.FULL).listed();
        assertEquals(List.of("ntfs.boot.oem-id"), listed.stream().filter(f -> f.severity() != Severity.COSMETIC).map(Finding::check).toList());
    }

    @Test
    void aTableInPiecesIsPutTogetherFromItsRecords() throws IOException {
        // record 0 and its mirror are gone
        MemoryImage image = files().without(SectorRanges.of(List.of(new sectorglass.image.SectorRange(32, 2),
                new sectorglass.image.SectorRange(8191 * 8, 8))));
        NtfsVolume volume = Volumes.open(image);
        sectorglass.disk.FileTree tree = volume.capability(sectorglass.disk.Files.class).orElseThrow()
                .tree(sectorglass.image.Progress.NONE);
        assertTrue(tree.find("two.bin").isPresent() && tree.find("data.bin").isPresent(), "files found");
        FileTable searched = new TableSearch(image, volume.table().geometry()).find(sectorglass.image.Progress.NONE);
        assertEquals(volume.table().address(65), searched.address(65));
        assertEquals(FileTable.Origin.SCANNED, searched.origin());
    }

    @Test
    void nothingIsClaimedWhereNothingStands() {
        MemoryImage image = MemoryImage.of(new byte[1 << 20]);
        assertFalse(new NtfsProvider().recognise(new VolumeSite(image, image.all(), "07")).isPresent());
    }

    @Test
    void structuresAreFoundByTheirPlace() throws IOException {
        NtfsVolume volume = Volumes.open(files());
        assertEquals("file record 65", volume.structureAt(16384 + 65 * 1024 + 700).orElseThrow().name());
        assertEquals("boot sector", volume.structureAt(100).orElseThrow().name());
        assertEquals("boot sector, copy", volume.structureAt(67108352 + 11).orElseThrow().name());
        assertEquals(NtfsStructures.INDEX, volume.structureAt(2053L * 4096 + 1000).orElseThrow().format());
        assertEquals(16384 + 65 * 1024, volume.address("record", 65).orElseThrow());
        assertEquals(8704L * 4096, volume.address("cluster", 8704).orElseThrow());
        assertTrue(volume.address("cluster", 16383).isEmpty());
        assertTrue(volume.witnesses().stream().allMatch(w -> w.shift() == 0), volume.witnesses().toString());
        assertTrue(volume.witnesses().size() > 4);
    }
}
