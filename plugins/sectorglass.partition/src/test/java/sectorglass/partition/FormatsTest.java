package sectorglass.partition;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

import org.junit.jupiter.api.Test;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.FieldNode;
import sectorglass.decode.FormatCatalogue;
import sectorglass.decode.SpecCheck;
import sectorglass.disk.Disk;
import sectorglass.disk.Structure;
import sectorglass.image.SectorImage;

/** The specs: sound, complete, and what they say of made tables. */
class FormatsTest {

    private static FieldNode decode(Structure structure, SectorImage image) throws Exception {
        return Decoder.decode(FormatCatalogue.ofProviders().load(structure.format()), structure.reader().read(image),
                DecodeOptions.DEFAULT.withParams(structure.params()));
    }

    private static FieldNode decode(SectorImage image, String name) throws Exception {
        return decode(Look.at(image).disk().maps().stream().map(Disk.FoundMap::map).flatMap(m -> m.structures().stream())
                .filter(s -> s.name().equals(name)).findFirst().orElseThrow(), image);
    }

    private static FieldNode find(FieldNode node, String path) {
        if (node.path().equals(path)) {
            return node;
        }
        return node.children().stream().map(child -> find(child, path)).filter(java.util.Objects::nonNull).findFirst().orElse(null);
    }

    @Test
    void specsAreSound() throws Exception {
        try (Stream<Path> specs = Files.list(Path.of(System.getProperty("house"), "formats/partition"))) {
            List<Path> all = specs.filter(p -> p.toString().endsWith(".ksy")).sorted().toList();
            assertEquals(10, all.size());
            for (Path spec : all) {
                assertEquals(List.of(), SpecCheck.check(spec));
                String sources = Files.readString(spec.resolveSibling("SOURCES.md"));
                assertTrue(sources.contains(spec.getFileName().toString().replace(".ksy", "")), spec.toString());
            }
        }
    }

    @Test
    void mbrFields() throws Exception {
        FieldNode root = decode(Samples.mbr(), "MBR");
        assertTrue(find(root, "slots[0].type").meaning().contains("Linux"), find(root, "slots[0].type").meaning());
        assertEquals("active: boot code starts this one", find(root, "slots[0].active").meaning());
        assertEquals(2048L, find(root, "slots[0].first_lba").raw());
        assertEquals("lba", find(root, "slots[0].first_lba").link().kind());
        assertTrue(find(root, "slots[0].first_chs").meaning().replaceAll("[^0-9A-Za-z/]", "").contains("LBA2048"),
                find(root, "slots[0].first_chs").meaning());
        assertEquals(454, find(root, "slots[0].first").firstByte());
        assertEquals(FieldNode.State.OK, find(root, "signature").state());
    }

    @Test
    void gptFields() throws Exception {
        Memory image = Samples.gpt(512);
        FieldNode header = decode(image, "primary GPT header");
        assertEquals(Samples.DISK, find(header, "disk_guid").value().toUpperCase());
        assertEquals(131071L, find(header, "alternate_lba").raw());
        FieldNode entries = decode(image, "primary GPT entries");
        assertEquals(128, find(entries, "entries").children().size());
        assertTrue(find(entries, "entries[0].type").meaning().contains("UEFI"), find(entries, "entries[0].type").meaning());
        assertEquals("Datenträger", find(entries, "entries[1].name").value());
        assertTrue(find(entries, "entries[1].attributes").meaning().contains("legacy BIOS"));
    }

    @Test
    void everyByteIsExplained() throws Exception {
        for (Memory image : List.of(Samples.mbr(), Samples.gpt(512), Samples.gpt(4096))) {
            for (Disk.FoundMap found : Look.at(image).disk().maps()) {
                for (Structure structure : found.map().structures()) {
                    FieldNode root = decode(structure, image);
                    assertEquals(structure.range().length(), covered(root), structure.name());
                    assertEquals(null, trouble(root), structure.name());
                }
            }
        }
    }

    private static long covered(FieldNode node) {
        return node.children().isEmpty() ? node.length() : node.children().stream().mapToLong(FormatsTest::covered).sum();
    }

    private static String trouble(FieldNode node) {
        if (node.state() != FieldNode.State.OK) {
            return node.path() + ": " + node.problem();
        }
        return node.children().stream().map(FormatsTest::trouble).filter(java.util.Objects::nonNull).findFirst().orElse(null);
    }
}
