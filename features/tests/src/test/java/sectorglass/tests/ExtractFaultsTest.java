package sectorglass.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.stream.Stream;

import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.make.Demo;
import sectorglass.testkit.Tool;

/** Extraction into a medium that fills up, denies, or dies: nothing is lost, and the same command with --resume finishes the work. */
class ExtractFaultsTest {
    @TempDir
    static Path folder;
    private static Path image;
    private static Path whole;

    @BeforeAll
    static void extractOnceWithoutFaults() throws IOException {
        image = Demo.write(folder, Demo.Variant.GPT_SOUND).image();
        whole = folder.resolve("whole");
        assertEquals(0, Cli.run("extract", image, "--volume", "3", "--to", whole, "--quiet", "/").status());
    }

    private static List<String> lines(Path manifest) throws IOException {
        return Files.readAllLines(manifest).stream().sorted().toList();
    }

    private static void isWhole(Path to) throws IOException {
        assertEquals(lines(whole.resolve("manifest.csv")), lines(to.resolve("manifest.csv")));
        assertEquals(0, Cli.run("readback", to, "--manifest", whole.resolve("manifest.csv")).status());
        try (Stream<Path> all = Files.walk(to)) {
            assertFalse(all.anyMatch(f -> f.toString().endsWith(".unfinished")));
        }
    }

    @Test
    void aFullMediumLosesNothingAndTheWorkGoesOn() throws IOException {
        Path medium = Files.createDirectory(folder.resolve("medium"));
        Assumptions.assumeTrue(Tool.present("mount") && Tool.run("mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", medium.toString()).status() == 0,
                "a small medium can be mounted by root only");
        try {
            Path to = medium.resolve("out");
            Cli full = Cli.run("extract", image, "--volume", "3", "--to", to, "/");
            assertEquals(6, full.status(), full.err());
            assertTrue(full.err().contains("--resume"), full.err());
            Cli back = Cli.run("readback", to);
            assertEquals(0, back.status(), "what is listed is whole: " + back.out());
            assertTrue(Files.readAllLines(to.resolve("manifest.csv")).size() > 5);
            Tool.run("mount", "-o", "remount,size=32m", medium.toString()).ok();
            assertEquals(0, Cli.run("extract", image, "--volume", "3", "--to", to, "--resume", "--quiet", "/").status());
            isWhole(to);
        } finally {
            Tool.run("umount", medium.toString());
        }
    }

    @Test
    void aKillAtAnyMomentIsMended() throws IOException {
        Path to = folder.resolve("killed");
        assertEquals(0, Cli.run("extract", image, "--volume", "3", "--to", to, "--quiet", "/").status());
        Path manifest = to.resolve("manifest.csv");
        String text = Files.readString(manifest);
        int half = text.indexOf('\n', text.length() / 2) + 1;
        List<String> rest = text.substring(half).lines().toList();
        Path unlisted = to.resolve(rest.get(0).split(",")[2]);
        Path gone = to.resolve(rest.get(1).split(",")[2]);
        assertTrue(Files.exists(unlisted) && Files.exists(gone));
        Files.writeString(manifest, text.substring(0, half) + rest.get(0).substring(0, 7));
        Files.move(gone, gone.resolveSibling(gone.getFileName() + ".unfinished"));
        assertEquals(0, Cli.run("extract", image, "--volume", "3", "--to", to, "--resume", "--quiet", "/").status());
        isWhole(to);
    }

    @Test
    void aForeignFileInTheWayIsNeverWrittenOver() throws IOException {
        Path to = folder.resolve("foreign");
        Path theirs = to.resolve("Sound/market ambience.wav");
        Files.createDirectories(theirs.getParent());
        Files.writeString(theirs, "mine", StandardOpenOption.CREATE_NEW);
        Cli run = Cli.run("extract", image, "--volume", "3", "--to", to, "--resume", "/");
        assertEquals(6, run.status());
        assertTrue(run.err().contains("never written over"), run.err());
        assertEquals("mine", Files.readString(theirs));
        Files.delete(theirs);
        assertEquals(0, Cli.run("extract", image, "--volume", "3", "--to", to, "--resume", "--quiet", "/").status());
        isWhole(to);
    }

    @Test
    void aMediumThatDeniesIsToldAndTheWorkGoesOn() throws IOException {
        Path to = Files.createDirectories(folder.resolve("denied"));
        Assumptions.assumeTrue(Tool.present("chattr") && Tool.run("chattr", "+i", to.toString()).status() == 0,
                "this file system cannot deny a folder to root");
        try {
            Cli denied = Cli.run("extract", image, "--volume", "3", "--to", to, "/");
            assertEquals(6, denied.status(), denied.err());
        } finally {
            Tool.run("chattr", "-i", to.toString());
        }
        assertEquals(0, Cli.run("extract", image, "--volume", "3", "--to", to, "--resume", "--quiet", "/").status());
        isWhole(to);
    }
}
