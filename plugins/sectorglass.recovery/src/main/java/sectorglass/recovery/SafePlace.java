package sectorglass.recovery;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * Gives each extracted file a place below one folder: no name leaves it, no two files meet, also where the medium does not tell capitals
 * apart, and no name is one that an operating system keeps for itself.
 */
final class SafePlace {
    /** Names that Windows keeps for devices: Microsoft, "Naming Files, Paths, and Namespaces". */
    private static final Set<String> RESERVED = Set.of("con", "prn", "aux", "nul", "com1", "com2", "com3", "com4", "com5", "com6", "com7",
            "com8", "com9", "lpt1", "lpt2", "lpt3", "lpt4", "lpt5", "lpt6", "lpt7", "lpt8", "lpt9");
    private static final int LONGEST = 200;

    private final Path root;
    private final Set<String> taken = new HashSet<>();
    private final Map<String, Path> folders = new HashMap<>();

    /** @param root an existing folder */
    SafePlace(Path root) throws IOException {
        this.root = root.toRealPath();
    }

    /** The folder that all places lie in. */
    Path root() {
        return root;
    }

    /** A place for a file or folder; parts are names from the volume, as they are. */
    Path place(List<String> parts) {
        Path at = root;
        StringBuilder key = new StringBuilder();
        for (int i = 0; i < parts.size(); i++) {
            key.append('/').append(parts.get(i));
            boolean last = i == parts.size() - 1;
            Path known = folders.get(key.toString());
            if (known != null && !last) {
                at = known;
                continue;
            }
            at = free(at, name(parts.get(i)));
            if (!last) {
                folders.put(key.toString(), at);
            }
        }
        if (!at.normalize().startsWith(root)) {
            throw new IllegalStateException("a name leads out of " + root);
        }
        return at;
    }

    /** The place of a folder, the same each time it is asked for. */
    Path folder(List<String> parts) {
        String key = "/" + String.join("/", parts);
        Path known = folders.get(key);
        if (known == null) {
            known = place(parts);
            folders.put(key, known);
        }
        return known;
    }

    private Path free(Path folder, String name) {
        String wanted = name;
        for (int n = 2; !taken.add(folder.resolve(wanted).toString().toLowerCase(Locale.ROOT)); n++) {
            int dot = name.lastIndexOf('.');
            wanted = dot > 0 ? name.substring(0, dot) + " (" + n + ")" + name.substring(dot) : name + " (" + n + ")";
        }
        return folder.resolve(wanted);
    }

    /** A name that every file system takes: what cannot stand in one becomes an underscore. */
    static String name(String any) {
        StringBuilder safe = new StringBuilder();
        for (int i = 0; i < any.length();) {
            int c = any.codePointAt(i);
            i += Character.charCount(c);
            int type = Character.getType(c);
            boolean bad = c < 0x20 || "\"*/:<>?\\|".indexOf(c) >= 0 || type == Character.CONTROL || type == Character.SURROGATE
                    || type == Character.FORMAT || type == Character.LINE_SEPARATOR || type == Character.PARAGRAPH_SEPARATOR;
            safe.appendCodePoint(bad ? '_' : c);
        }
        while (safe.length() > 0 && (safe.charAt(safe.length() - 1) == '.' || safe.charAt(safe.length() - 1) == ' ')) {
            safe.setLength(safe.length() - 1);
            safe.append('_');
        }
        String name = shorten(safe.isEmpty() ? "_" : safe.toString());
        String stem = name.contains(".") ? name.substring(0, name.indexOf('.')) : name;
        return RESERVED.contains(stem.strip().toLowerCase(Locale.ROOT)) ? "_" + name : name;
    }

    private static String shorten(String name) {
        if (name.getBytes(StandardCharsets.UTF_8).length <= LONGEST) {
            return name;
        }
        int dot = name.lastIndexOf('.');
        String ending = dot > 0 && name.length() - dot <= 16 ? name.substring(dot) : "";
        int end = name.length() - ending.length();
        while ((name.substring(0, end) + ending).getBytes(StandardCharsets.UTF_8).length > LONGEST) {
            end = name.offsetByCodePoints(end, -1);
        }
        return name.substring(0, end) + ending;
    }
}
