package sectorglass.practice.disk;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;

import com.fasterxml.jackson.core.JacksonException;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;

/** JSON files of practice: indented, line feeds, UTF-8, for people with any editor. */
final class PracticeJson {
    /** The form written now. */
    static final int VERSION = 1;
    private static final long LONGEST = 64L << 20;
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final DefaultIndenter INDENT = new DefaultIndenter("  ", "\n");

    private PracticeJson() {
    }

    static Map<String, Object> ordered(Object... keysAndValues) {
        Map<String, Object> map = new LinkedHashMap<>();
        for (int i = 0; i < keysAndValues.length; i += 2) {
            map.put((String) keysAndValues[i], keysAndValues[i + 1]);
        }
        return map;
    }

    /** Writes a file; an older one of that name is replaced. */
    static void write(Path file, Map<String, Object> content) throws IOException {
        DefaultPrettyPrinter printer = new DefaultPrettyPrinter().withObjectIndenter(INDENT).withArrayIndenter(INDENT);
        Files.writeString(file, JSON.writer(printer).writeValueAsString(content) + "\n");
    }

    /**
     * Reads a file of a kind.
     *
     * @throws PracticeException if it is no such file, in words
     */
    static JsonNode read(Path file, String kind) throws IOException {
        if (!Files.isRegularFile(file)) {
            throw new PracticeException("There is no file " + file + ".");
        }
        if (Files.size(file) > LONGEST) {
            throw new PracticeException(file + " is too large for a file of practice.");
        }
        JsonNode root;
        try {
            root = JSON.readTree(Files.readAllBytes(file));
        } catch (JacksonException e) {
            String at = e.getLocation() == null ? "" : " in line " + e.getLocation().getLineNr() + ", column " + e.getLocation().getColumnNr();
            throw new PracticeException(file + " is no JSON" + at + ": " + e.getOriginalMessage() + ".");
        }
        if (root == null || !root.path("sectorglass").asText().equals(kind)) {
            throw new PracticeException(file + " is no file of the kind \"" + kind + "\".");
        }
        if (root.path("version").asInt() != VERSION) {
            throw new PracticeException(file + " is written in form " + root.path("version").asText() + "; this program reads form " + VERSION + ".");
        }
        return root;
    }
}
