package sectorglass.ntfs;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;

import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Allocation;
import sectorglass.disk.Content;
import sectorglass.disk.FileState;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.Level;
import sectorglass.disk.ReadOrder;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.testkit.Tool;
import sectorglass.verify.Finding;
import sectorglass.verify.Severity;

/** A volume with sectors, clusters and file records of 4096 bytes (mkntfs -s 4096), in an image whose sectors have 4096 bytes or 512. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class LargeSectorsTest {
    @TempDir
    static Path folder;

    private final byte[] resident = Volumes.steps(3000, 7);
    private final byte[] plain = Volumes.steps(20000, 11);
    private byte[] bytes;

    @BeforeAll
    void make() throws IOException {
        Tool.require("mkntfs", "ntfscp");
        Path file = folder.resolve("large.img");
        Volumes.make(file, 64 << 20, 4096, 4096);
        java.nio.file.Files.write(folder.resolve("resident.bin"), resident);
        java.nio.file.Files.write(folder.resolve("plain.bin"), plain);
        for (String name : List.of("resident.bin", "plain.bin")) {
            Tool.run("ntfscp", file.toString(), folder.resolve(name).toString(), name).ok();
        }
        bytes = MemoryImage.of(file).bytes;
    }

    private List<MemoryImage> images() {
        return List.of(new MemoryImage(bytes, 4096, SectorRanges.EMPTY), new MemoryImage(bytes, 512, SectorRanges.EMPTY));
    }

    private static byte[] read(NtfsVolume volume, String path) {
        Files files = volume.capability(Files.class).orElseThrow();
        FileTree tree = files.tree(Progress.NONE);
        Content content = files.content(tree.find(path).orElseThrow(), "");
        byte[] out = new byte[(int) content.bytes()];
        assertEquals(List.of(), content.read(0, out, 0, out.length));
        return out;
    }

    @Test
    void itIsRecognisedListedAndSound() {
        for (MemoryImage image : images()) {
            NtfsVolume volume = Volumes.open(image);
            Geometry geometry = volume.table().geometry();
            assertEquals(List.of(4096, 4096, 4096), List.of(geometry.sectorBytes(), geometry.clusterBytes(), geometry.recordBytes()));
            assertEquals(64L * 1024 * 1024 / image.sectorSize(), volume.info().range().count());
            assertEquals("FIXED", volume.info().label());
            assertArrayEquals(resident, read(volume, "resident.bin"));
            assertArrayEquals(plain, read(volume, "plain.bin"));
            assertEquals(List.of(), Volumes.verify(image, Level.FULL).listed());
        }
    }

    /** The copy of the boot sector is the last sector of 4096 bytes. */
    @Test
    void theCopyOfTheBootSectorServes() {
        byte[] bare = bytes.clone();
        java.util.Arrays.fill(bare, 0, 4096, (byte) 0);
        for (int sector : new int[] {512, 4096}) {
            NtfsVolume volume = Volumes.open(new MemoryImage(bare, sector, SectorRanges.EMPTY));
            assertEquals("boot sector, copy", volume.structureAt((64 << 20) - 4096 + 11).orElseThrow().name());
            assertArrayEquals(plain, read(volume, "plain.bin"));
        }
    }

    /** Half a record of 4096 bytes unread in an image of 512-byte sectors: the resident value keeps what stands in the other sectors. */
    @Test
    void aPartlyReadRecordKeepsItsOtherStrides() {
        NtfsVolume whole = Volumes.open(images().get(1));
        long number = whole.capability(Files.class).orElseThrow().tree(Progress.NONE).number(whole.capability(Files.class).orElseThrow()
                .tree(Progress.NONE).find("resident.bin").orElseThrow());
        long record = whole.table().address(number);
        MemoryImage image = new MemoryImage(bytes, 512, SectorRanges.of(record / 512 + 3, 1));
        Files files = Volumes.open(image).capability(Files.class).orElseThrow();
        Content content = files.content(files.tree(Progress.NONE).find("resident.bin").orElseThrow(), "");
        assertEquals(FileState.DAMAGED, content.state());
        assertEquals(1, content.missing().size());
        ByteRange missing = content.missing().get(0);
        assertEquals(512, missing.length());
        byte[] out = new byte[3000];
        assertEquals(content.missing(), content.read(0, out, 0, 3000));
        byte[] expected = resident.clone();
        java.util.Arrays.fill(expected, (int) missing.start(), (int) missing.end(), (byte) 0);
        assertArrayEquals(expected, out);
    }

    @Test
    void tornRecordsAndPlansAreToldInItsSectors() {
        NtfsVolume whole = Volumes.open(images().get(0));
        FileTree tree = whole.capability(Files.class).orElseThrow().tree(Progress.NONE);
        long record = whole.table().address(tree.number(tree.find("plain.bin").orElseThrow()));
        MemoryImage torn = new MemoryImage(bytes, 4096, SectorRanges.EMPTY).with(record + 4094, 0xAB, 0xCD);
        List<Finding> findings = Volumes.verify(torn, Level.FULL).listed().stream().filter(f -> f.severity() != Severity.COSMETIC).toList();
        assertTrue(findings.stream().anyMatch(f -> f.check().equals("ntfs.record.fixup") && f.where().start() == record + 4094), findings.toString());
        for (MemoryImage image : images()) {
            NtfsVolume volume = Volumes.open(image);
            int size = image.sectorSize();
            Allocation allocation = volume.capability(Allocation.class).orElseThrow();
            assertEquals(List.of("plain.bin"), allocation.owners(content(volume).extents().get(0).imageByte() / size, Progress.NONE).stream()
                    .map(Allocation.Owner::owner).toList());
            assertEquals(volume.info().usedBytes(), allocation.used().count() * size);
            assertTrue(volume.capability(ReadOrder.class).orElseThrow().stages(Progress.NONE).stream()
                    .anyMatch(s -> s.sectors().contains(record / size)));
            assertTrue(allocation.metadata().contains((64L << 20) / size - 1), "the copy of the boot sector");
        }
    }

    private static Content content(NtfsVolume volume) {
        Files files = volume.capability(Files.class).orElseThrow();
        return files.content(files.tree(Progress.NONE).find("plain.bin").orElseThrow(), "");
    }
}
