package sectorglass.fat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.FieldNode;
import sectorglass.decode.FormatCatalogue;
import sectorglass.decode.SpecCheck;
import sectorglass.disk.Structure;

/** The specs: sound, and of one mind with the readers that the checks use. */
class FormatsTest {

    private static FieldNode decode(FatVolume volume, Structure structure) throws Exception {
        return Decoder.decode(FormatCatalogue.ofProviders().load(structure.format()), structure.reader().read(volume.site().image()),
                DecodeOptions.DEFAULT.withParams(structure.params()));
    }

    private static FieldNode named(FatVolume volume, String name) throws Exception {
        return decode(volume, volume.structures().stream().filter(s -> s.name().equals(name)).findFirst().orElseThrow());
    }

    private static FieldNode find(FieldNode node, String path) {
        if (node.path().equals(path)) {
            return node;
        }
        return node.children().stream().map(child -> find(child, path)).filter(Objects::nonNull).findFirst().orElse(null);
    }

    @Test
    void specsAreSound() throws Exception {
        try (Stream<Path> specs = Files.list(Path.of(System.getProperty("house"), "formats/fat"))) {
            List<Path> all = specs.filter(p -> p.toString().endsWith(".ksy")).sorted().toList();
            assertEquals(7, all.size());
            for (Path spec : all) {
                assertEquals(List.of(), SpecCheck.check(spec));
                String sources = Files.readString(spec.resolveSibling("SOURCES.md"));
                assertTrue(sources.contains(spec.getFileName().toString().replace(".ksy", "")), spec.toString());
            }
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"f12", "f16", "f32", "f12k", "f16k", "f32k"})
    void theBootSectorSpecAgreesWithTheReader(String name) throws Exception {
        FatVolume volume = Volumes.volume(Volumes.open(name));
        Geometry geometry = volume.found().geometry();
        FieldNode root = named(volume, "boot sector");
        assertEquals((long) geometry.sectorBytes(), find(root, "bytes_per_sector").raw());
        assertEquals((long) geometry.clusterSectors(), find(root, "sectors_per_cluster").raw());
        assertEquals(geometry.firstData(), find(root, "first_data_sector").raw());
        assertEquals(geometry.clusters(), find(root, "clusters").raw());
        assertEquals((long) geometry.rootSectors(), find(root, "root_sectors").raw());
        assertEquals(0x1234ABCDL, find(root, "serial").raw());
        assertTrue(find(root, "media").meaning().contains("medium"));
        assertEquals(FieldNode.State.OK, find(root, "signature").state());
    }

    @ParameterizedTest
    @ValueSource(strings = {"f12", "f16", "f32"})
    void theTableSpecAgreesWithTheReader(String name) throws Exception {
        FatVolume volume = Volumes.volume(Volumes.open(name));
        FatTable table = volume.table();
        FieldNode root = named(volume, "FAT 1 from entry 0");
        for (int i = 0; i < 40; i++) {
            assertEquals((long) table.entry(i), find(root, "entries[" + i + "].next").raw(), "entry " + i);
        }
        assertEquals("end of chain", find(root, "entries[1].next").meaning());
        assertEquals("cluster", find(root, "entries[5].next").link().kind());
    }

    @Test
    void theDirectorySpecShowsWhatMtoolsWrote() throws Exception {
        FatVolume volume = Volumes.volume(Volumes.open("f32"));
        FieldNode root = decode(volume, volume.structureAt(0xA1800 + 4 * 32 + 5).orElseThrow());
        assertEquals(3, find(root, "slots").children().size());
        assertEquals("A Lon", find(root, "slots[1].body.name_1").value());
        assertEquals(5000L, find(root, "slots[2].body.size").raw());
        assertEquals(5L, find(root, "slots[2].body.first_cluster").raw());
        assertEquals("2020-02-29", find(root, "slots[2].body.written_date").meaning());
        assertEquals("archive", find(root, "slots[2].body.attributes").meaning());
        assertEquals(0xA1800 + 5 * 32 + 28, find(root, "slots[2].body.size").firstByte());
    }

    @Test
    void theInformationSectorSpec() throws Exception {
        FieldNode root = named(Volumes.volume(Volumes.open("f32")), "information sector");
        assertEquals(80614L, find(root, "free_count").raw());
        assertEquals(16L, find(root, "next_free").raw());
        FieldNode damaged = named(Volumes.volume(Volumes.open("f32").plant(512 + 484, 0)), "information sector");
        assertEquals(FieldNode.State.VIOLATED, find(damaged, "structure_signature").state());
        assertEquals(80614L, find(damaged, "free_count").raw());
    }

    /** Structures lie in the volume, and each byte of the first sectors is explained by the innermost one. */
    @Test
    void structuresAreFoundByTheirBytes() {
        FatVolume volume = Volumes.volume(Volumes.open("f32"));
        assertEquals("fat32_boot_sector", volume.structureAt(3).orElseThrow().format());
        assertEquals("fat32_fs_info", volume.structureAt(600).orElseThrow().format());
        assertEquals("backup boot sector", volume.structureAt(6 * 512 + 71).orElseThrow().name());
        assertEquals("FAT 1 from entry 1024", volume.structureAt(16384 + 4096 + 5).orElseThrow().name());
        assertEquals("fat_directory", volume.structureAt(0xA1A00 + 64).orElseThrow().format());
        assertTrue(volume.structureAt(0xA1A00 + 512 + 5).isEmpty());
    }
}
