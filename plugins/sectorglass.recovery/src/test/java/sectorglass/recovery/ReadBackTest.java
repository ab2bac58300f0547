package sectorglass.recovery;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.FileStamp;
import sectorglass.disk.FileState;
import sectorglass.image.Progress;
import sectorglass.testkit.Tool;

class ReadBackTest {
    @TempDir
    Path folder;

    private Path manifest(String... names) throws IOException {
        StringWriter out = new StringWriter();
        Manifest manifest = new Manifest(out, folder, ZoneId.of("Europe/Berlin"), false);
        for (String name : names) {
            Path file = folder.resolve(name);
            Files.createDirectories(file.getParent());
            Files.writeString(file, "content of " + name);
            manifest.add(new Extraction.Written(name, "", file, Files.size(file), FileHash.sha256(file, Progress.NONE), List.of(), FileState.COMPLETE,
                    FileStamp.of(Instant.EPOCH), null));
        }
        return Files.writeString(folder.resolve("manifest.csv"), out.toString());
    }

    @Test
    void everyFileIsComparedAndWhatDiffersIsNamed() throws IOException {
        Path file = manifest("a/one.txt", "=two,\"three\".txt", "four.txt", "five.txt");
        assertTrue(ReadBack.of(ManifestFile.load(file), folder, Progress.NONE).good());
        Files.writeString(folder.resolve("a/one.txt"), "Content of a/one.txt");
        Files.writeString(folder.resolve("four.txt"), "short");
        Files.delete(folder.resolve("five.txt"));
        Files.writeString(folder.resolve("more.txt"), "new");
        ReadBack back = ReadBack.of(ManifestFile.load(file), folder, Progress.NONE);
        assertFalse(back.good());
        assertEquals(1, back.same());
        assertEquals(List.of("a/one.txt: other content", "four.txt: 5 bytes instead of 19"), back.different());
        assertEquals(List.of("five.txt"), back.missing());
        assertEquals(List.of("more.txt"), back.more());
    }

    @Test
    void aHashIsThatOfTheUtility() throws IOException {
        Tool.require("sha256sum");
        Path file = Files.write(folder.resolve("x"), new byte[9_000_001]);
        assertEquals(Tool.run("sha256sum", file.toString()).ok().split(" ")[0], FileHash.sha256(file, Progress.NONE));
    }

    @Test
    void linesThatAFaultCutAreLeftOutAndMended() throws IOException {
        Path file = manifest("one.txt", "two.txt");
        String whole = Files.readString(file);
        Files.writeString(file, whole.substring(0, whole.length() - 30));
        assertEquals(1, ManifestFile.load(file).lines().size());
        ManifestFile.mend(file);
        assertTrue(Files.readString(file).endsWith("\n"));
        assertEquals(1, ManifestFile.load(file).lines().size());
        String first = whole.lines().skip(1).findFirst().orElseThrow();
        Files.writeString(file, whole + first.substring(0, 20) + first + "\n");
        assertEquals(2, ManifestFile.load(file).lines().size(), "half a line in front of a whole one");
        assertTrue(ManifestFile.load(file).finished("one.txt", "", "one.txt"));
        assertFalse(ManifestFile.load(file).finished("one.txt", "", "one (2).txt"));
        Files.writeString(file, "something else");
        assertThrows(IOException.class, () -> ManifestFile.load(file));
    }

    @Test
    void aManifestThatLeadsOutOfTheFolderReadsNothingThere() throws IOException {
        Path file = Files.writeString(folder.resolve("manifest.csv"), Manifest.TITLE + "\nx,,../../etc/passwd,1,00,complete,,,,,,,\n");
        ReadBack back = ReadBack.of(ManifestFile.load(file), folder, Progress.NONE);
        assertEquals(List.of("../../etc/passwd: leads out of the folder"), back.different());
    }
}
