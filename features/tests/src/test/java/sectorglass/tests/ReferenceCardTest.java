package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.FieldNode;
import sectorglass.decode.FormatCatalogue;
import sectorglass.decode.FormatInfo;
import sectorglass.decode.FormatOutline;
import sectorglass.image.Window;

/** Reference cards are made from the specs: every format has one, offsets are those of the standards and those that the decoder finds. */
class ReferenceCardTest {
    private static final FormatCatalogue CATALOGUE = FormatCatalogue.ofProviders();

    @TempDir
    Path folder;

    private static Map<String, FormatOutline.Row> rows(String id, String part) throws Exception {
        Map<String, FormatOutline.Row> rows = new HashMap<>();
        CATALOGUE.outline(id).parts().stream().filter(p -> p.name().equals(part)).findFirst().orElseThrow().rows().forEach(r -> rows.put(r.name(), r));
        return rows;
    }

    @Test
    void offsetsAreThoseOfTheStandards() throws Exception {
        Map<String, FormatOutline.Row> gpt = rows("gpt_header", "");
        // UEFI 2.10, section 5.3.2
        assertEquals("16", gpt.get("HeaderCRC32").offset());
        assertEquals("56", gpt.get("DiskGUID").offset());
        assertEquals("16", gpt.get("DiskGUID").length());
        assertEquals("88", gpt.get("PartitionEntryArrayCRC32").offset());
        // UEFI 2.10, section 5.2.1
        Map<String, FormatOutline.Row> mbr = rows("mbr", "");
        assertEquals("446", mbr.get("PartitionRecord").offset());
        assertEquals("4", mbr.get("PartitionRecord").times());
        assertEquals("slot", mbr.get("PartitionRecord").part());
        assertEquals("510", mbr.get("Signature").offset());
        assertEquals("8", rows("mbr", "slot").get("StartingLBA").offset());
        assertEquals("28", rows("fat_directory", "entry").get("DIR_FileSize").offset());
    }

    /** The decoder puts every field of the structure itself where the card says, on bytes of no meaning; fields behind others of varying length are left out. */
    @TestFactory
    List<DynamicTest> cardsAndDecoderAgree() {
        List<DynamicTest> tests = new ArrayList<>();
        for (String id : List.of("gpt_header", "mbr", "exfat_boot_sector", "fat_boot_sector", "fat32_boot_sector", "ntfs_boot_sector", "ext_superblock",
                "fat32_fs_info")) {
            tests.add(DynamicTest.dynamicTest(id, () -> {
                Map<String, Object> params = new HashMap<>();
                CATALOGUE.load(id).params().forEach(name -> params.put(name, 512L));
                Window window = Window.ofRead(new byte[1024], 0, 512);
                FieldNode root = Decoder.decode(CATALOGUE.load(id), window, DecodeOptions.DEFAULT.withParams(params));
                Map<String, Long> decoded = new HashMap<>();
                root.children().forEach(child -> decoded.putIfAbsent(child.label(), child.firstByte()));
                int compared = 0;
                for (FormatOutline.Row row : CATALOGUE.outline(id).parts().get(0).rows()) {
                    if (row.offset().matches("\\d+") && decoded.containsKey(row.name()) && row.part() == null
                            && CATALOGUE.outline(id).parts().get(0).rows().stream().filter(r -> r.name().equals(row.name())).count() == 1) {
                        assertEquals(Long.parseLong(row.offset()), decoded.get(row.name()), row.name());
                        compared++;
                    }
                }
                assertTrue(compared >= 4, compared + " fields");
            }));
        }
        return tests;
    }

    @Test
    void everyFormatHasACardWithItsSource() throws Exception {
        for (FormatInfo info : CATALOGUE.formats()) {
            FormatOutline outline = CATALOGUE.outline(info.id());
            assertFalse(outline.parts().get(0).rows().isEmpty(), info.id());
            assertFalse(outline.source() == null || outline.doc() == null, info.id());
            outline.parts().forEach(part -> part.rows().forEach(row -> assertFalse(row.name() == null || row.offset() == null, info.id() + " " + part.name())));
        }
    }

    @Test
    void theCommandWritesThem() throws Exception {
        Cli said = Cli.run("formats", "--card", "mbr", "--card", "ext_superblock", "--to", folder, "--language", "de");
        assertEquals(0, said.status(), said.err());
        String html = Files.readString(folder.resolve("mbr.html"));
        assertTrue(html.contains("Bedeutung") && html.contains("StartingLBA") && html.contains("UEFI 2.10"), html);
        assertEquals("%PDF", new String(Files.readAllBytes(folder.resolve("ext_superblock.pdf")), 0, 4, StandardCharsets.US_ASCII));
        assertEquals(6, Cli.run("formats", "--card", "mbr", "--to", folder).status());
        assertEquals(2, Cli.run("formats", "--card", "no_such", "--to", folder).status());
        assertEquals(2, Cli.run("formats", "--card", "mbr").status());
    }
}
