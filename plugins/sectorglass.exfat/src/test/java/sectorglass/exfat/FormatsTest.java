package sectorglass.exfat;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;

import org.junit.jupiter.api.Test;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.FieldNode;
import sectorglass.decode.FormatCatalogue;
import sectorglass.decode.SpecCheck;
import sectorglass.disk.Structure;

/** The specs: sound, and of one mind with the readers that the checks use. */
class FormatsTest {

    private static FieldNode decode(Structure structure) throws Exception {
        return Decoder.decode(FormatCatalogue.ofProviders().load(structure.format()), structure.reader().read(Volumes.open()),
                DecodeOptions.DEFAULT.withParams(structure.params()));
    }

    private static FieldNode named(String name) throws Exception {
        return decode(Volumes.volume(Volumes.open()).structures().stream().filter(s -> s.name().equals(name)).findFirst().orElseThrow());
    }

    private static FieldNode find(FieldNode node, String path) {
        if (node.path().equals(path)) {
            return node;
        }
        return node.children().stream().map(child -> find(child, path)).filter(Objects::nonNull).findFirst().orElse(null);
    }

    @Test
    void specsAreSound() throws Exception {
        try (Stream<Path> specs = Files.list(Path.of(System.getProperty("house"), "formats/exfat"))) {
            List<Path> all = specs.filter(p -> p.toString().endsWith(".ksy")).sorted().toList();
            assertEquals(8, all.size());
            for (Path spec : all) {
                assertEquals(List.of(), SpecCheck.check(spec));
                String sources = Files.readString(spec.resolveSibling("SOURCES.md"));
                assertTrue(sources.contains(spec.getFileName().toString().replace(".ksy", "")), spec.toString());
            }
        }
    }

    @Test
    void theBootSectorSpecAgreesWithTheReader() throws Exception {
        Geometry geometry = Volumes.volume(Volumes.open()).found().geometry();
        for (String name : new String[] {"boot sector", "backup boot sector"}) {
            FieldNode root = named(name);
            assertEquals(geometry.volumeLength(), find(root, "volume_length").raw());
            assertEquals(geometry.fatOffset(), find(root, "fat_offset").raw());
            assertEquals(geometry.heapOffset(), find(root, "heap_offset").raw());
            assertEquals(geometry.clusters(), find(root, "cluster_count").raw());
            assertEquals((long) geometry.clusterBytes(), find(root, "bytes_per_cluster").raw());
            assertEquals("cluster", find(root, "root_cluster").link().kind());
        }
        assertEquals(0xB11F579EL, find(named("boot checksum"), "checksums[127]").raw());
    }

    @Test
    void theDirectorySpecShowsASet() throws Exception {
        Structure set = Volumes.volume(Volumes.open()).structureAt(0x230C0 + 70).orElseThrow();
        assertEquals("directory entry set", set.name());
        assertEquals(128, set.range().length());
        FieldNode root = decode(set);
        assertEquals(4, find(root, "entries").children().size());
        assertEquals("stream extension", find(root, "entries[1].entry_type").meaning());
        assertEquals(9000L, find(root, "entries[1].body.data_length").raw());
        assertEquals(7L, find(root, "entries[1].body.first_cluster").raw());
        assertTrue(find(root, "entries[1].body.flags").meaning().contains("contiguous"));
        assertEquals("2020-02-29", find(root, "entries[0].body.created.date").meaning());
        assertEquals(60L, find(root, "entries[0].body.created_zone.minutes").raw());
        assertTrue(find(root, "entries[2].body.name").value().startsWith("A Long File Nam"));
    }

    @Test
    void tablesAndFatAreShown() throws Exception {
        FieldNode fat = named("FAT 1 from entry 0");
        assertEquals(12L, find(fat, "entries[10].next").raw());
        assertEquals("end of chain", find(fat, "entries[11].next").meaning());
        FieldNode bitmap = named("allocation bitmap");
        assertEquals(true, find(bitmap, "octets[0].in_use[0]").raw());
        assertEquals(false, find(bitmap, "octets[1].in_use[5]").raw());
        assertEquals(10L, find(bitmap, "octets[1].cluster").raw());
        assertEquals(0x41L, find(named("up-case table"), "mappings[97]").raw());
    }
}
