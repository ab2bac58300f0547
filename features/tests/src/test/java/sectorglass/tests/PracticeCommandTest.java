package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

import com.fasterxml.jackson.databind.JsonNode;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.practice.disk.AnswerForm;
import sectorglass.practice.disk.AnswerKey;
import sectorglass.practice.disk.DiskKey;
import sectorglass.practice.disk.Grading;
import sectorglass.practice.disk.PracticeFile;

/** A teacher makes and grades a class set from the command line. */
class PracticeCommandTest {
    @TempDir
    Path folder;

    @Test
    void aClassSetIsMadeAndGraded() throws IOException {
        Cli made = Cli.run("practice", "--class", 3, "--seed", 99, "--level", 2, "--to", folder, "--exam", "--language", "de");
        assertEquals(0, made.status(), made.err());
        AnswerKey key = AnswerKey.read(folder.resolve("teacher/key.json"));
        assertEquals(3, key.disks().size());
        assertEquals(3, key.disks().stream().map(DiskKey::sha256).distinct().count());
        for (int seat = 1; seat <= 3; seat++) {
            DiskKey disk = key.disks().get(seat - 1);
            Path own = folder.resolve("seat-0" + seat);
            assertTrue(PracticeFile.beside(own.resolve("practice.img")).orElseThrow().exam());
            AnswerForm empty = AnswerForm.read(own.resolve("answer.json"));
            assertEquals(disk.code(), empty.code());
            assertEquals(List.of(), empty.answers());
            new AnswerForm(disk.code(), "Learner " + seat, disk.faults().size(), seat == 3 ? List.of() : new Grading(disk).solution().answers())
                    .write(own.resolve("filled.json"));
            assertTrue(Files.readString(own.resolve("task.html")).contains("<html lang=\"de\""));
            assertNothingTold(own, disk);
        }
        Cli graded = Cli.run("practice", "grade", folder.resolve("seat-01/filled.json"), folder.resolve("seat-02/filled.json"),
                folder.resolve("seat-03/filled.json"), "--key", folder.resolve("teacher/key.json"), "--json");
        assertEquals(0, graded.status(), graded.err());
        JsonNode grades = graded.json().get("grades");
        assertEquals(grades.get(0).get("most").asInt(), grades.get(0).get("points").asInt());
        assertEquals(grades.get(1).get("most").asInt(), grades.get(1).get("points").asInt());
        assertEquals(Grading.COUNT, grades.get(2).get("points").asInt());
        Cli text = Cli.run("practice", "grade", folder.resolve("seat-03/filled.json"), "--key", folder.resolve("teacher/key.json"));
        assertTrue(text.out().contains(key.disks().get(2).faults().get(0).check()) && text.out().contains("not named"), text.out());
    }

    /** What a learner gets says neither the seed nor a fault. */
    private static void assertNothingTold(Path own, DiskKey disk) throws IOException {
        try (Stream<Path> files = Files.list(own)) {
            for (Path file : files.filter(f -> !f.toString().endsWith(".img") && !f.endsWith("filled.json")).toList()) {
                String text = Files.readString(file);
                assertFalse(text.contains(Long.toString(disk.seed())), file + " tells the seed");
                assertFalse(text.contains("\"right\""), file + " tells a fault");
            }
        }
    }

    @Test
    void wrongUseIsSaidInASentence() throws IOException {
        assertEquals(2, Cli.run("practice", "--seed", 1).status());
        assertEquals(2, Cli.run("practice", "--seed", 1, "--level", 6, "--to", folder).status());
        assertEquals(2, Cli.run("practice", "--seed", 1, "--fault", "no.such", "--to", folder).status());
        Path form = Files.writeString(folder.resolve("form.json"), "{\"sectorglass\":\"practice answer\",\"version\":1,\"found\":[{\"lba\":\"x\"}]}");
        Path key = folder.resolve("key.json");
        new AnswerKey(List.of()).write(key);
        Cli said = Cli.run("practice", "grade", form, "--key", key);
        assertEquals(2, said.status());
        assertTrue(said.err().contains("answer 1, lba"), said.err());
        Files.writeString(form, "{\n \"sectorglass\": \"practice answer\",,\n}");
        assertTrue(Cli.run("practice", "grade", form, "--key", key).err().contains("line 2"));
        Files.writeString(form, "{\"sectorglass\":\"practice answer\",\"version\":1,\"disk\":\"AAAA-AAAA\"}");
        assertTrue(Cli.run("practice", "grade", form, "--key", key).err().contains("AAAA-AAAA"));
    }

    @Test
    void kindsAreListedAndOneCanBeAskedFor() throws IOException {
        assertTrue(Cli.run("practice", "kinds").out().lines().count() >= 100);
        assertEquals(0, Cli.run("practice", "--seed", 5, "--fault", "mbr.reserved", "--to", folder).status());
        Cli verify = Cli.run("verify", folder.resolve("disk/practice.img"), "--json");
        assertEquals(List.of("mbr.reserved"), verify.checks());
    }
}
