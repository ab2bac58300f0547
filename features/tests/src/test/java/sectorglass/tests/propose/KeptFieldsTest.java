package sectorglass.tests.propose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.cli.Main;
import sectorglass.testkit.Tool;

/** Fields that damaged headers still bear are not replaced by chosen ones. Offsets: UEFI 2.10, table 5.5. */
class KeptFieldsTest {
    @TempDir
    Path folder;

    @Test
    void usableSectorsOfHeadersWithADamagedGuidStay() throws Exception {
        Tool.require("sfdisk");
        Path image = folder.resolve("gpt.img");
        try (RandomAccessFile file = new RandomAccessFile(image.toFile(), "rw")) {
            file.setLength(16 << 20);
        }
        Path script = Files.writeString(folder.resolve("script"), "label: gpt\nstart=4096, size=8192\n");
        Tool.run("sh", "-c", "sfdisk -q " + image + " < " + script).ok();
        byte[] whole = Files.readAllBytes(image);
        long first = ByteBuffer.wrap(whole).order(ByteOrder.LITTLE_ENDIAN).getLong(512 + 40);
        assertEquals(2048, first, "sfdisk aligns the first usable sector");
        whole[512 + 57] ^= 0x55;
        whole[whole.length - 512 + 57] ^= 0x55;
        Files.write(image, whole);
        ByteArrayOutputStream said = new ByteArrayOutputStream();
        Path to = folder.resolve("out");
        assertEquals(0, Main.run(new String[] {"propose", image.toString(), "--to", to.toString()},
                new PrintStream(said, true, StandardCharsets.UTF_8), new PrintStream(said, true, StandardCharsets.UTF_8)));
        byte[] corrected = Files.readAllBytes(to.resolve("corrected.img"));
        ByteBuffer fields = ByteBuffer.wrap(corrected).order(ByteOrder.LITTLE_ENDIAN);
        assertEquals(2048, fields.getLong(512 + 40));
        assertEquals(2048, fields.getLong(corrected.length - 512 + 40));
        assertEquals(ByteBuffer.wrap(whole).order(ByteOrder.LITTLE_ENDIAN).getLong(512 + 48), fields.getLong(512 + 48));
        assertTrue(said.toString(StandardCharsets.UTF_8).contains("usable LBA are taken from the damaged header"), said.toString(StandardCharsets.UTF_8));
    }
}
