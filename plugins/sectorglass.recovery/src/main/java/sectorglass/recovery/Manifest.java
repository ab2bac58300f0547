package sectorglass.recovery;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

import sectorglass.image.SafeText;
import sectorglass.recovery.opening.TestResult;

/**
 * The manifest of an extraction: CSV, UTF-8, a line per file, flushed after each so that a fault loses none; {@link ManifestFile} reads it. Paths of
 * written files are relative to the folder, with {@code /} whatever the system.
 */
public final class Manifest {
    /** The title line. */
    static final String TITLE = "path,stream,file,bytes,sha256,state,modified,unread_ranges,remark,zone,test,type,test_reason";

    private final Writer out;
    private final Path root;
    private final ZoneId zone;

    /** A manifest that does not say which zone was assumed. */
    public Manifest(Writer out, Path root) throws IOException {
        this(out, root, null, false);
    }

    /**
     * Begins a manifest, or goes on with one.
     *
     * @param root the folder extracted into; files are named relative to it
     * @param zone assumed for times that have none of their own, or null
     * @param more whether lines are added to what is there
     */
    public Manifest(Writer out, Path root, ZoneId zone, boolean more) throws IOException {
        this.out = out;
        this.root = root;
        this.zone = zone;
        if (!more) {
            out.write(TITLE + "\n");
            out.flush();
        }
    }

    /** Adds a line. */
    public void add(Extraction.Written written) {
        String ranges = written.missing().stream().map(r -> r.start() + "+" + r.length()).collect(Collectors.joining(" "));
        List<String> cells = new ArrayList<>(List.of(written.path(), written.stream(), written.file() == null ? "" : relative(root, written.file()),
                String.valueOf(written.bytes()), written.sha256() == null ? "" : written.sha256(), written.state().word(),
                written.modified() == null ? "" : written.modified().toString(), ranges, written.remark() == null ? "" : written.remark()));
        cells.add(written.modified() == null ? "" : written.modified().offset() != null ? "of the file system" : zone == null ? "not known" : zone.getId() + " assumed");
        TestResult test = written.test();
        cells.addAll(test == null ? List.of("", "", "") : List.of(test.answer().word(), test.type() == null ? "" : test.type().id(), test.sentence(Locale.ENGLISH)));
        try {
            out.write(cells.stream().map(Manifest::cell).collect(Collectors.joining(",")) + "\n");
            out.flush();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The path of a file below a folder, with {@code /}. */
    static String relative(Path root, Path file) {
        return root.relativize(file).toString().replace(root.getFileSystem().getSeparator(), "/");
    }

    /** Quoted where needed; a cell that a spreadsheet would take for a formula gets an apostrophe. */
    private static String cell(String text) {
        String safe = SafeText.of(text);
        if (!safe.isEmpty() && "=+-@'".indexOf(safe.charAt(0)) >= 0) {
            safe = "'" + safe;
        }
        return safe.matches("[^\",]*") ? safe : "\"" + safe.replace("\"", "\"\"") + "\"";
    }
}
