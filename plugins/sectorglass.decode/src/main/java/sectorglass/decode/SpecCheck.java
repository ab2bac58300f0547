package sectorglass.decode;

import java.io.IOException;
import java.nio.charset.MalformedInputException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

import sectorglass.decode.internal.load.SpecLoader;
import sectorglass.decode.internal.load.SpecSource;

/** Specs in files: checked, or loaded to be run. Imports are looked for in the folder of the file and below. */
public final class SpecCheck {
    private static final long LARGEST = 2 << 20;

    private SpecCheck() {
    }

    /** All mistakes of a spec and of what it imports, in order of their place; empty where it is sound. */
    public static List<SpecProblem> check(Path file) {
        try {
            load(file);
            return List.of();
        } catch (SpecException e) {
            return e.problems();
        }
    }

    /**
     * Loads a spec from a file.
     *
     * @throws SpecException with all mistakes; also where the file cannot be read
     */
    public static Format load(Path file) throws SpecException {
        Path folder = file.toAbsolutePath().getParent();
        return SpecLoader.load(folder(folder), file.getFileName().toString());
    }

    /**
     * Loads a spec from text that is not saved yet.
     *
     * @param name the name problems are told with
     * @param folder where imports are looked for
     * @throws SpecException with all mistakes
     */
    public static Format load(String name, String text, Path folder) throws SpecException {
        SpecSource files = folder(folder);
        return SpecLoader.load(path -> path.equals(name) ? text : files.read(path), name);
    }

    private static SpecSource folder(Path folder) {
        return path -> {
            Path file = folder.resolve(path).normalize();
            if (!file.startsWith(folder.normalize()) || !Files.isRegularFile(file)) {
                return null;
            }
            if (Files.size(file) > LARGEST) {
                throw new IOException("it is larger than 2 MiB");
            }
            try {
                return Files.readString(file, StandardCharsets.UTF_8);
            } catch (MalformedInputException e) {
                throw new IOException("it is not UTF-8 text", e);
            }
        };
    }
}
