package sectorglass.partition;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

import sectorglass.disk.Role;

/** Meanings of partition types, from a table in this bundle: one line per type with code, meaning and use, tabs between. */
public final class TypeTable {
    /** MBR type codes, two hex digits. */
    public static final TypeTable MBR = new TypeTable("mbr-types.tsv", "type code");
    /** GPT type GUIDs, lower case. */
    public static final TypeTable GPT = new TypeTable("gpt-types.tsv", "type GUID");
    /** Apple partition types. */
    public static final TypeTable APM = new TypeTable("apm-types.tsv", "type");
    /** File system codes of BSD labels. */
    public static final TypeTable BSD = new TypeTable("bsd-types.tsv", "type code");
    /** Tags of Sun labels. */
    public static final TypeTable SUN = new TypeTable("sun-types.tsv", "tag");
    /** Types of SGI labels. */
    public static final TypeTable SGI = new TypeTable("sgi-types.tsv", "type code");

    private final Map<String, String> names = new HashMap<>();
    private final Map<String, Role.Kind> uses = new HashMap<>();
    private final String word;

    private TypeTable(String file, String word) {
        this.word = word;
        try (InputStream in = TypeTable.class.getResourceAsStream(file);
                BufferedReader lines = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                if (!line.startsWith("#") && !line.isBlank()) {
                    String[] cells = line.split("\t");
                    names.put(cells[0], cells[1]);
                    if (cells.length > 2) {
                        uses.put(cells[0], kind(cells[2]));
                    }
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(file, e);
        }
    }

    private static Role.Kind kind(String word) {
        for (Role.Kind kind : Role.Kind.values()) {
            if (kind.word().equals(word)) {
                return kind;
            }
        }
        throw new IllegalArgumentException("no role is called " + word);
    }

    /** The meaning in words, or null where the type is not in the table. */
    public String name(String type) {
        return names.get(type);
    }

    /** What the type says of the partition's use; may be empty. */
    public List<Role> roles(String type) {
        Role.Kind kind = uses.get(type);
        return kind == null ? List.of() : List.of(Role.of(kind, word + " " + type + ": " + names.get(type)));
    }

    /** All codes of the table. */
    public java.util.Set<String> codes() {
        return java.util.Collections.unmodifiableSet(names.keySet());
    }
}
