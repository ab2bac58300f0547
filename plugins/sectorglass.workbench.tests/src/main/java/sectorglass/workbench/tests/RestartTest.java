package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;

import org.eclipse.core.runtime.Platform;
import org.junit.jupiter.api.Test;

/** Leaves the window in one process and comes back in another: {@link Leaving} changes things, {@link Restored} finds them again. */
class RestartTest {

    /** Parts that were in the window at an English start, opened or not, have German names at a German one. */
    @Test
    void namesOfPartsFollowTheLanguage() throws IOException, InterruptedException {
        Path room = Files.createTempDirectory("restart");
        start(room, "LeavingParts", "en");
        start(room, "RestoredGerman", "de");
    }

    @Test
    void everythingIsThereAgain() throws IOException, InterruptedException {
        Path room = Files.createTempDirectory("restart");
        start(room, "Leaving", "en");
        start(room, "Restored", "en");
    }

    private static void start(Path room, String what, String language) throws IOException, InterruptedException {
        Path install = Path.of(Platform.getInstallLocation().getURL().getPath());
        Path launcher;
        try (var jars = Files.newDirectoryStream(install.resolve("plugins"), "org.eclipse.equinox.launcher_*.jar")) {
            launcher = jars.iterator().next();
        }
        Path log = room.resolve(what + ".log");
        Process process = new ProcessBuilder(List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString(), "-XX:TieredStopAtLevel=1",
                "-Duser.language=" + language, "-Duser.country=GB", "-Duitest.class=" + what, "-Duitest.room=" + room, "-Duser.home=" + room, "-jar", launcher.toString(), "-application",
                "sectorglass.workbench.tests", "-nosplash", "-consoleLog", "-configuration", room.resolve("configuration").toString(), "-data",
                room.resolve("workspace").toString())).redirectErrorStream(true).redirectOutput(log.toFile()).start();
        try {
            assertTrue(process.waitFor(300, TimeUnit.SECONDS), what + " did not end");
        } finally {
            process.destroyForcibly();
        }
        assertEquals(0, process.exitValue(), Files.readString(log, StandardCharsets.UTF_8));
    }
}
