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
        // the formatter put the copy into the last sector; $BadClus spans 16383 whole clusters of the 131071 sectors before it
        assertEquals(131071L * 512, volume.info().bytes());
        assertEquals(68, volume.table().records());
        List<Finding> listed = Volumes.verify(bare, Level.FULL).listed();
        assertEquals(List.of("ntfs.boot.oem-id"), listed.stream().filter(f -> f.severity() != Severity.COSMETIC).map(Finding::check).toList());
    }

    /** Record 0 stands at byte 16384, its mirror in cluster 8191 (mkntfs, ntfsinfo -m). */
    @Test
    void theMirrorOrTheNumbersOfRecordsTellTheMeasures() throws IOException {
        MemoryImage bare = files().with(0, new int[512]).with(67108352, new int[512]);
        int[] record = new int[1024];
        long mirror = mirrorByte();
        for (MemoryImage image : List.of(bare.with(16384, record), bare.with(mirror, record), bare.with(16384, record).with(mirror, record),
                bare.with(16384, record).with(mirror, new int[4096]), bare.with(16384, new int[4096]), bare.with(16384 + 8 * 1024, record))) {
            Geometry found = Volumes.open(image).table().geometry();
            assertEquals(4096, found.clusterBytes());
            assertEquals(4, found.mftLcn());
            assertEquals(8191, found.mirrorLcn());
            assertEquals(131071, found.sectors());
        }
    }

    @Test
    void randomBytesOverTheBootSectorNeedSeveralRecords() throws IOException {
        int[] noise = new java.util.Random(5).ints(512, 0, 256).toArray();
        MemoryImage image = files().with(0, noise).with(67108352, noise);
        assertEquals(8191, Volumes.open(image).table().geometry().mirrorLcn());
        MemoryImage little = image.with(mirrorByte(), new int[4096]).with(16384 + 2 * 1024, new int[80 * 1024]);
        sectorglass.disk.VolumeSite site = new sectorglass.disk.VolumeSite(little, little.all(), null);
        assertTrue(new NtfsProvider().recognise(site).isEmpty());
    }

    private static long mirrorByte() {
        return 8191L * 4096;
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

    /** Record 0 and its mirror destroyed, the table in two pieces: every service finds the second one, and a finding says how. */
    @Test
    void everyServiceUsesTheTableThatWasSearchedFor() throws IOException {
        byte[] bytes = files().bytes.clone();
        System.arraycopy(bytes, 12 * 4096, bytes, 12000 * 4096, 11 * 4096);
        java.util.Arrays.fill(bytes, 12 * 4096, 23 * 4096, (byte) 0x55);
        java.util.Arrays.fill(bytes, 4 * 4096, 4 * 4096 + 1024, (byte) 0x55);
        java.util.Arrays.fill(bytes, 8191 * 4096, 8192 * 4096, (byte) 0x55);
        MemoryImage image = MemoryImage.of(bytes);
        Finding quick = Volumes.verify(image, Level.QUICK).listed().stream().filter(f -> f.check().equals("ntfs.table.start")).findFirst()
                .orElseThrow();
        assertEquals("55 55 55 55", quick.stored());
        assertTrue(quick.what().contains("assumed to go on"), quick.what());
        long record65 = 12000L * 4096 + 33 * 1024; // record 65 is the 34th of the second piece, which begins with record 32
        NtfsVolume volume = Volumes.open(image);
        assertEquals("file record outside the table", volume.structureAt(record65 + 700).orElseThrow().name());
        sectorglass.verify.Checks checks = new sectorglass.verify.Checks();
        volume.check(Level.FULL, checks, sectorglass.image.Progress.NONE);
        List<Finding> full = sectorglass.verify.Findings.of(checks, Volumes.BOOK, 512).listed();
        Finding found = full.stream().filter(f -> f.check().equals("ntfs.table.start")).findFirst().orElseThrow();
        assertEquals(Severity.UNUSABLE, found.severity());
        assertEquals(16384, found.where().start());
        assertTrue(found.what().contains("pieces: 2"), found.what());
        assertTrue(volume.info().remarks().contains("the file table was put together from records found by scanning"));
        assertEquals("file record 65", volume.structureAt(record65 + 700).orElseThrow().name());
        assertEquals(record65, volume.address("record", 65).orElseThrow());
        // data.bin at cluster 8704 (ntfscluster of the whole volume); the reading order names the second piece, too
        NtfsVolume fresh = Volumes.open(image);
        assertEquals(List.of("data.bin"), fresh.capability(sectorglass.disk.Allocation.class).orElseThrow()
                .owners(8704 * 8, sectorglass.image.Progress.NONE).stream().map(o -> o.owner()).toList());
        assertTrue(Volumes.open(image).capability(sectorglass.disk.ReadOrder.class).orElseThrow().stages(sectorglass.image.Progress.NONE)
                .stream().anyMatch(s -> s.sectors().contains(12000 * 8)));
    }

    /** The mirror of the first records, where no boot sector leads to it, tells where the pieces of the table lie. */
    @Test
    void aCopyOfRecordZeroAnywhereTellsTheTable() throws IOException {
        byte[] bytes = files().bytes.clone();
        System.arraycopy(bytes, 4 * 4096, bytes, 13000 * 4096, 1024);
        java.util.Arrays.fill(bytes, 4 * 4096, 4 * 4096 + 1024, (byte) 0x55);
        java.util.Arrays.fill(bytes, 8191 * 4096, 8192 * 4096, (byte) 0x55);
        FileTable searched = new TableSearch(MemoryImage.of(bytes), Volumes.open(files()).table().geometry())
                .find(sectorglass.image.Progress.NONE);
        assertEquals(68, searched.records());
        assertEquals(1, searched.runs().runs());
        assertEquals(19, searched.runs().count(0));
    }

    /** $Bitmap is four sectors at cluster 2055; the second stands for clusters 4096 to 8191, of which one is in use. */
    @Test
    void spaceInUseIsABoundWhereTheMapIsPartlyUnread() throws IOException {
        var info = Volumes.open(files().without(SectorRanges.of(2055 * 8 + 1, 1))).info();
        assertEquals(null, info.usedBytes());
        assertEquals(List.of("space in use: " + 670 * 4096 + " bytes at least; for " + 4096 * 4096 + " bytes the map ($Bitmap) was not read"),
                info.remarks());
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
