package sectorglass.recovery;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;

import sectorglass.image.ByteRange;
import sectorglass.image.SafeText;

/** The manifest of an extraction: CSV, UTF-8, a line per file, flushed after each so that a fault loses none. */
public final class Manifest {
    private final Writer out;
    private final Path root;

    /** @param root the folder extracted into; files are named relative to it */
    public Manifest(Writer out, Path root) throws IOException {
        this.out = out;
        this.root = root;
        out.write("path,stream,file,bytes,sha256,state,modified,unread_ranges,remark\n");
        out.flush();
    }

    /** Adds a line. */
    public void add(Extraction.Written written) {
        String ranges = written.missing().stream().map(r -> r.start() + "+" + r.length()).collect(Collectors.joining(" "));
        List<String> cells = List.of(written.path(), written.stream(), written.file() == null ? "" : root.relativize(written.file()).toString(),
                String.valueOf(written.bytes()), written.sha256() == null ? "" : written.sha256(), written.state().word(),
                written.modified() == null ? "" : written.modified().toString(), ranges, written.remark() == null ? "" : written.remark());
        try {
            out.write(cells.stream().map(Manifest::cell).collect(Collectors.joining(",")) + "\n");
            out.flush();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Quoted where needed; a cell that a spreadsheet would take for a formula gets an apostrophe. */
    private static String cell(String text) {
        String safe = SafeText.of(text);
        if (!safe.isEmpty() && "=+-@".indexOf(safe.charAt(0)) >= 0) {
            safe = "'" + safe;
        }
        return safe.matches("[^\",]*") ? safe : "\"" + safe.replace("\"", "\"\"") + "\"";
    }
}
