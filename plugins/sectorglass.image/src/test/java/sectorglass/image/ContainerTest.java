package sectorglass.image;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

import sectorglass.testkit.Tool;

class ContainerTest {
    @TempDir
    Path folder;

    private String refusal(Path file) {
        return assertThrows(ImageException.class, () -> Images.open(file)).getMessage();
    }

    /** The signatures are checked against files that the programs of the formats themselves write. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', value = {"gzip -k a.bin|a.bin.gz|gzip", "xz -k a.bin|a.bin.xz|xz", "bzip2 -k a.bin|a.bin.bz2|bzip2",
        "zstd -q a.bin|a.bin.zst|Zstandard", "lz4 -q a.bin a.lz4|a.lz4|LZ4", "zip -q a.zip a.bin|a.zip|ZIP", "tar cf a.tar a.bin|a.tar|tar",
        "lzip -k a.bin|a.bin.lz|lzip", "compress -f -k a.bin|a.bin.Z|LZW", "img2simg a.bin a.simg|a.simg|Android sparse"})
    void packedFilesAreNamed(String command, String result, String name) throws Exception {
        Tool.require(command.split(" ")[0]);
        TestFiles.numbered(folder.resolve("a.bin"), 1 << 20);
        Tool.run("sh", "-c", "cd " + folder + " && " + command).ok();
        String sentence = refusal(folder.resolve(result));
        assertTrue(sentence.contains("is not a raw image") && sentence.contains(name), sentence);
    }

    @ParameterizedTest
    @CsvSource({"0,514649FB00000003,qcow", "0,4B444D56,VMDK", "0,7668647866696C65,VHDX", "64,7F10DABE,VDI", "0,4556460D,",
        "0,455646090D0A FF00,Expert Witness", "0,377ABCAF271C,7z", "-512,636F6E6563746978,VHD", "-512,6B6F6C79000000040000020000,UDIF",
        "0,4D5357494D000000,Windows Imaging"})
    void virtualDisksAreNamedByTheirSignature(int at, String hex, String name) throws Exception {
        Path file = folder.resolve("a.img");
        byte[] signature = java.util.HexFormat.of().parseHex(hex.replace(" ", ""));
        try (RandomAccessFile out = new RandomAccessFile(file.toFile(), "rw")) {
            out.setLength(10_240);
            out.seek(at < 0 ? 10_240 + at : at);
            out.write(signature);
        }
        if (name == null) {
            Images.open(file).close();
            return;
        }
        String sentence = refusal(file);
        assertTrue(sentence.contains(name), sentence);
        try (OpenImage image = Images.open(file, OpenOptions.DEFAULT.withRawAnyway(true))) {
            assertEquals(20, image.sectors());
        }
    }

    @Test
    void aDiskWithAForeignTrailerOpensByItsForm() throws Exception {
        byte[] file = new byte[4096 + 512];
        System.arraycopy("conectix".getBytes(StandardCharsets.US_ASCII), 0, file, 4096, 8);
        Path path = Files.write(folder.resolve("fixed.img"), file);
        try (OpenImage image = Images.open(path, OpenOptions.DEFAULT.withDumpForm(DumpForm.PLAIN.withTrailer(512)))) {
            assertEquals(8, image.sectors());
        }
    }

    @Test
    void shortFilesAreNoContainers() throws Exception {
        for (int length : new int[] {1, 2, 7, 64, 511}) {
            try (OpenImage image = Images.open(Files.write(folder.resolve("a.img"), new byte[length]))) {
                assertEquals(0, image.sectors());
                assertEquals(length, image.bytes());
                assertEquals(ReadState.UNREAD, image.sector(0).state(0));
                assertEquals(0, image.window(0, length).u8(length - 1));
            }
        }
    }
}
