package sectorglass.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;

import org.junit.jupiter.api.Test;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.FieldNode;
import sectorglass.decode.FormatCatalogue;

/** The specs of drive data: sound, complete, and what they say of made sectors. */
class DriveFormatsTest {

    private static FieldNode decode(String id, byte[] sector) throws Exception {
        return Decoder.decode(FormatCatalogue.ofProviders().load(id), Sectors.read(sector), DecodeOptions.DEFAULT);
    }

    private static FieldNode find(FieldNode node, String path) {
        if (node.path().equals(path)) {
            return node;
        }
        return node.children().stream().map(child -> find(child, path)).filter(java.util.Objects::nonNull).findFirst().orElse(null);
    }

    private static long covered(FieldNode node) {
        return node.children().isEmpty() ? node.length() : node.children().stream().mapToLong(DriveFormatsTest::covered).sum();
    }

    @Test
    void everyByteIsExplained() throws Exception {
        for (Map.Entry<String, byte[]> sample : Map.of("ata_identify", Sectors.identify(), "ata_smart_data", Sectors.smart(),
                "ata_smart_thresholds", Sectors.thresholds(36)).entrySet()) {
            assertEquals(512, covered(decode(sample.getKey(), sample.getValue())), sample.getKey());
        }
        assertEquals(3, FormatCatalogue.ofProviders().formats().size(), FormatCatalogue.ofProviders().formats().toString());
    }

    @Test
    void fields() throws Exception {
        FieldNode identify = decode("ata_identify", Sectors.identify());
        assertEquals("EXAMPLE DISK 1000", find(identify, "model_number").value().trim());
        assertEquals(1953525168L, find(identify, "sectors_48").raw());
        assertTrue(find(identify, "sectors_48").meaning().contains("931.5 GiB"), find(identify, "sectors_48").meaning());
        assertEquals(434, find(identify, "rotation_rate").firstByte());
        FieldNode smart = decode("ata_smart_data", Sectors.smart());
        assertEquals("reallocated sectors", find(smart, "attributes[0].id").meaning());
        assertEquals(8L, find(smart, "attributes[0].raw_value").raw());
        assertEquals(List.of(511L), List.of(find(smart, "checksum").firstByte()));
    }
}
