package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.image.DumpForm;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.testkit.Corpus;

/** Dump forms with the landmarks of all bundles: no plain image is taken for another form, and GPT disks are found in each form. */
class DumpFormCorpusTest {
    private static final List<String> FOLDERS = List.of("probe-partitions", "probe-volumes", "fat-volumes", "ntfs-volumes");
    private static final int HEAD = 1 << 21;
    @TempDir
    static Path folder;

    @TestFactory
    Stream<DynamicTest> plainImagesStayPlain() {
        return FOLDERS.stream().flatMap(name -> Corpus.files(name, "").stream().filter(p -> p.toString().matches(".*\\.(img|raw|ntfs|xz|gz|bz2)"))
                .map(p -> DynamicTest.dynamicTest(name + "/" + p.getFileName(), () -> plain(p))));
    }

    private static void plain(Path packed) throws Exception {
        Path path = Corpus.unpack(packed, folder);
        byte[] head;
        try (OpenImage image = Images.open(path, OpenOptions.DEFAULT.withAlone(true))) {
            assertTrue(image.dumpForm().form().plain(), image.dumpForm()::reason);
            head = image.window(0, (int) Math.min(HEAD, image.bytes() / 512 * 512)).raw(0, (int) Math.min(HEAD, image.bytes() / 512 * 512));
        } finally {
            if (!path.equals(packed)) {
                Files.deleteIfExists(path);
            }
        }
        if (head.length > 4096 && new String(head, 512, 8, java.nio.charset.StandardCharsets.US_ASCII).equals("EFI PART")
                && head[510] == 0x55) {
            for (DumpForm form : List.of(DumpForm.PLAIN.withHeader(512), DumpForm.PLAIN.withSwapped(true),
                    DumpForm.PLAIN.withSectors(520, 0, 512), DumpForm.PLAIN.withSectors(528, 16, 512).withSwapped(true))) {
                found(head, form);
            }
        }
    }

    private static void found(byte[] disk, DumpForm form) throws Exception {
        ByteArrayOutputStream stored = new ByteArrayOutputStream();
        stored.write(new byte[(int) form.header()]);
        for (int at = 0; at < disk.length; at += 512) {
            byte[] sector = new byte[form.storedSector()];
            for (int i = 0; i < 512; i++) {
                sector[form.payloadOffset() + i] = disk[at + (form.swapped() ? i ^ 1 : i)];
            }
            stored.write(sector);
        }
        Path file = Files.write(folder.resolve("formed.bin"), stored.toByteArray());
        try (OpenImage image = Images.open(file)) {
            assertEquals(form, image.dumpForm().form());
        }
    }
}
