package sectorglass.testkit;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;

import org.junit.jupiter.api.Assumptions;

/** Runs a reference utility with a time limit: some of them hang on damaged input. */
public final class Tool {

    /**
     * How a run ended.
     *
     * @param status exit status, or -1 where it was killed at the time limit
     * @param out standard output and standard error together
     */
    public record Result(int status, String out) {

        /** The output; fails the test where the status is not 0. */
        public String ok() {
            if (status != 0) {
                throw new AssertionError("exit status " + status + ": " + out);
            }
            return out;
        }
    }

    private Tool() {
    }

    /** Skips the calling test where one of the programs is not installed. */
    public static void require(String... programs) {
        for (String program : programs) {
            Assumptions.assumeTrue(find(program) != null, program + " is not installed");
        }
    }

    /** Whether a program is there. */
    public static boolean present(String program) {
        return find(program) != null;
    }

    /** Runs a command for at most 20 seconds; skips the calling test where the program is not installed. */
    public static Result run(String... command) {
        return run(Map.of(), null, 20, command);
    }

    /** Runs a command, its standard input from a text, within a time limit in seconds. */
    public static Result run(Map<String, String> environment, String input, int seconds, String... command) {
        require(command[0]);
        try {
            Path out = Files.createTempFile("tool", ".out");
            Path in = Files.createTempFile("tool", ".in");
            Files.writeString(in, input == null ? "" : input);
            ProcessBuilder builder = new ProcessBuilder(command);
            builder.command().set(0, find(command[0]).toString());
            builder.environment().put("LC_ALL", "C.UTF-8");
            builder.environment().putAll(environment);
            Process process = builder.redirectErrorStream(true).redirectOutput(out.toFile()).redirectInput(in.toFile()).start();
            boolean ended = process.waitFor(seconds, TimeUnit.SECONDS);
            if (!ended) {
                process.destroyForcibly().waitFor();
            }
            String text = Files.readString(out, StandardCharsets.ISO_8859_1);
            text = new String(text.getBytes(StandardCharsets.ISO_8859_1), StandardCharsets.UTF_8);
            Files.delete(out);
            Files.delete(in);
            return new Result(ended ? process.exitValue() : -1, text);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    private static Path find(String program) {
        if (program.contains("/")) {
            return Files.isExecutable(Path.of(program)) ? Path.of(program) : null;
        }
        String path = System.getenv().getOrDefault("PATH", "") + File.pathSeparator + "/usr/sbin" + File.pathSeparator + "/sbin";
        for (String folder : List.of(path.split(File.pathSeparator))) {
            Path candidate = Path.of(folder.isEmpty() ? "." : folder, program);
            if (Files.isExecutable(candidate) && !Files.isDirectory(candidate)) {
                return candidate;
            }
        }
        return null;
    }
}
