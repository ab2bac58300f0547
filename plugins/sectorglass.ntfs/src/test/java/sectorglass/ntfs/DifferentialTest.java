package sectorglass.ntfs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.FieldNode;
import sectorglass.decode.Format;
import sectorglass.decode.FormatCatalogue;
import sectorglass.decode.SpecException;
import sectorglass.image.Window;
import sectorglass.testkit.Corpus;

/**
 * The bulk reader against the spec, record by record, on whole and on mutated ones: whatever the reader takes for an attribute, the spec
 * shows at the same bytes with the same values.
 */
class DifferentialTest {
    private static final FormatCatalogue CATALOGUE = new FormatCatalogue(List.of(new NtfsFormats()));

    @TempDir
    static Path folder;

    @Test
    void everyRecordOfEveryVolume() throws IOException, SpecException {
        List<Path> images = new ArrayList<>(List.of(Volumes.withFiles(folder)));
        Path large = folder.resolve("large-sectors.img");
        Volumes.make(large, 64 << 20, 4096, 4096);
        images.add(large);
        if (Corpus.present()) {
            images.add(Corpus.unpack(Corpus.files("ntfs-volumes", ".xz").get(0), folder));
            images.add(Corpus.unpack(Corpus.folder("probe-volumes").resolve("ntfs.img.xz"), folder));
        }
        long compared = 0;
        for (Path image : images) {
            compared += records(MemoryImage.of(image), 700, 0);
        }
        assertTrue(compared > 400, "attributes compared: " + compared);
    }

    @Test
    void everyMutatedRecord() throws IOException, SpecException {
        long compared = records(MemoryImage.of(Volumes.withFiles(folder)), 68, 20);
        assertTrue(compared > 1500, "attributes compared: " + compared);
    }

    /** Compares records; each also {@code mutations} times with a few bytes changed. Gives the number of attributes compared. */
    private static long records(MemoryImage image, long most, int mutations) throws SpecException {
        Format format = CATALOGUE.load("ntfs_file_record");
        FileTable table = Volumes.open(image).table();
        Random random = new Random(7);
        long compared = 0;
        for (long number = 0; number < Math.min(most, table.records()); number++) {
            Window stored = table.window(number);
            compared += compare(format, stored.raw(0, stored.length()), "record " + number);
            for (int i = 0; i < mutations; i++) {
                byte[] bytes = stored.raw(0, stored.length());
                for (int k = 0; k < 1 + i % 3; k++) {
                    bytes[random.nextInt(random.nextBoolean() ? 0x200 : bytes.length)] = (byte) random.nextInt();
                }
                compared += compare(format, bytes, "record " + number + ", mutation " + i);
            }
        }
        return compared;
    }

    private static long compare(Format format, byte[] bytes, String what) {
        RecordView view = new RecordView();
        view.load(bytes.clone(), 0, bytes.length, null, 0);
        if (!view.usable()) {
            return 0;
        }
        FieldNode root = Decoder.decode(format, FixUp.undo(Window.ofRead(bytes, 0, 512)), DecodeOptions.DEFAULT);
        assertEquals(view.sequence(), number(root, "sequence_number"), what);
        assertEquals(view.u16(RecordView.FLAGS), number(root, "flags"), what);
        assertEquals(view.u32(RecordView.USED), number(root, "used_size"), what);
        assertEquals(view.baseNumber(), number(child(root, "base_record"), "record"), what);
        if (view.numbered()) {
            assertEquals(view.u32(RecordView.NUMBER), number(root, "record_number"), what);
        }
        Map<Long, FieldNode> byOffset = new HashMap<>();
        FieldNode attributes = child(root, "attributes");
        if (attributes != null) {
            attributes.children().forEach(a -> byOffset.put(a.offset(), a));
        }
        long compared = 0;
        view.rewind();
        while (view.nextAttribute()) {
            FieldNode attribute = byOffset.get((long) view.attribute);
            assertTrue(attribute != null, what + ": no attribute at " + view.attribute);
            attribute(view, attribute, what + ", attribute at " + view.attribute);
            compared++;
        }
        return compared;
    }

    private static void attribute(RecordView view, FieldNode node, String what) {
        assertEquals(view.type() & 0xFFFFFFFFL, number(node, "attribute_type"), what);
        assertEquals(view.length(), number(node, "attribute_length"), what);
        FieldNode body = child(node, "body");
        assertEquals(view.attributeId(), number(body, "attribute_id"), what);
        assertEquals(view.attributeFlags(), number(body, "flags"), what);
        int nameAt = view.u16(view.attribute + 0x0A);
        if (view.nameLength() > 0 && nameAt >= 24 && nameAt + 2 * view.nameLength() <= view.length()) {
            assertEquals(view.attributeName(), child(body, "name").raw(), what);
        }
        if (view.resident()) {
            resident(view, body, what);
        } else if (view.u8(view.attribute + 8) == 1) {
            FieldNode extent = child(body, "extent");
            assertEquals(view.lowestVcn(), number(extent, "lowest_vcn"), what);
            assertEquals(view.highestVcn(), number(extent, "highest_vcn"), what);
            assertEquals(view.realSize(), number(extent, "real_size"), what);
            assertEquals(view.allocatedSize(), number(extent, "allocated_size"), what);
            assertEquals(view.initialisedSize(), number(extent, "initialised_size"), what);
            int from = view.u16(view.attribute + 0x20);
            if (from >= 0x40 && from < view.length()) {
                runs(view, child(body, "data_runs"), what);
            }
        }
    }

    private static void resident(RecordView view, FieldNode body, String what) {
        FieldNode value = child(body, "value");
        if (view.valueOffset() < 0 || view.valueOffset() - view.attribute < 24) {
            return;
        }
        if (view.type() == AttributeType.FILE_NAME) {
            NameValue name = NameValue.of(view);
            if (name != null) {
                assertEquals(name.name(), child(value, "name").raw(), what);
                assertEquals(name.parent(), number(child(value, "parent"), "record"), what);
                assertEquals(name.modified(), number(value, "modified"), what);
                assertEquals(name.real(), number(value, "real_size"), what);
                assertEquals(view.valueOffset() + NameValue.HEAD, child(value, "name").offset(), what);
            }
        } else if (view.type() == AttributeType.STANDARD_INFORMATION && view.valueLength() >= 0x30) {
            assertEquals(view.u64(view.valueOffset() + 8), number(value, "modified"), what);
            assertEquals(view.u32(view.valueOffset() + 0x20), number(value, "file_attributes"), what);
        }
    }

    private static void runs(RecordView view, FieldNode node, String what) {
        RunList runs = new RunList();
        runs.add(view, view.runsOffset(), view.next, 0);
        FieldNode list = node == null ? null : child(node, "runs");
        for (int i = 0; i < runs.runs(); i++) {
            FieldNode run = list.children().get(i);
            // the spec shows numbers of up to six bytes
            if (number(run, "length_size") > 6 || number(run, "distance_size") > 6) {
                return;
            }
            if (runs.lcn(i) != RunList.HOLE) {
                assertEquals(runs.lcn(i), number(run, "first_cluster"), what + ", run " + i);
            }
            assertEquals(runs.count(i), number(run, "clusters"), what + ", run " + i);
        }
    }

    private static FieldNode child(FieldNode node, String id) {
        return node.children().stream().filter(c -> c.id().equals(id)).findFirst().orElse(null);
    }

    private static long number(FieldNode node, String id) {
        FieldNode field = node == null ? null : child(node, id);
        assertTrue(field != null && field.raw() instanceof Long, () -> id + " in " + (node == null ? "nothing" : node.path() + " "
                + node.children().stream().map(c -> c.id() + "=" + c.raw() + " " + c.problem()).toList()));
        return (Long) field.raw();
    }
}
