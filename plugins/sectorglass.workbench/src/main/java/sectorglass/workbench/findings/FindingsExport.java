package sectorglass.workbench.findings;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Locale;

import sectorglass.recovery.AcceptedFindings;
import sectorglass.recovery.Job;
import sectorglass.report.FindingsJson;
import sectorglass.report.JsonOut;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;

/** Writes findings to a file: JSON as {@code verify --json} prints it, or CSV (RFC 4180) with the same names as columns. */
final class FindingsExport {
    private static final String HEAD = "id,check,verdict,severity,lba,firstByte,length,stored,computed,what,means,advice,source,volume,reason,"
            + "cause,count,accepted";

    private FindingsExport() {
    }

    /**
     * Writes a file whose name ends in {@code .json} as JSON, any other as CSV. It appears whole or not at all.
     *
     * @param shown the findings wanted, in the order wanted
     * @param accepted those that somebody accepted as they are
     * @param image the image they are about, which is never written
     * @throws IOException with a sentence if the file is the image, or cannot be written
     */
    static void write(Path file, List<Finding> shown, Findings of, int sectorSize, AcceptedFindings accepted, Path image) throws IOException {
        if (image != null && Files.exists(file) && Files.isSameFile(file, image)) {
            throw new IOException(file + " is the image itself; it is never written");
        }
        Path folder = file.toAbsolutePath().getParent();
        Path fresh = Files.createTempFile(folder, "findings", ".new");
        try {
            try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(fresh))) {
                if (file.getFileName().toString().toLowerCase(Locale.ROOT).endsWith(".json")) {
                    json(out, shown, of, sectorSize, accepted);
                } else {
                    csv(out, shown, sectorSize, accepted);
                }
            }
            Files.move(fresh, file, StandardCopyOption.REPLACE_EXISTING);
        } catch (UncheckedIOException e) {
            throw e.getCause();
        } finally {
            Files.deleteIfExists(fresh);
        }
    }

    static void json(OutputStream out, List<Finding> shown, Findings of, int sectorSize, AcceptedFindings accepted) {
        try (JsonOut json = new JsonOut(out)) {
            FindingsJson.write(json, new Findings(shown, of.counts()), sectorSize, true, accepted);
        }
    }

    static void csv(OutputStream out, List<Finding> shown, int sectorSize, AcceptedFindings accepted) throws IOException {
        StringBuilder line = new StringBuilder(HEAD).append("\r\n");
        for (Finding f : shown) {
            Object[] cells = {f.id(), f.check(), f.verdict().word(), f.severity() == null ? null : f.severity().word(),
                f.where().start() / sectorSize, f.where().start(), f.where().length(), f.stored(), f.computed(), f.what(), f.means(), f.advice(),
                f.source(), f.volume(), f.reason(), f.cause(), f.count(),
                words(accepted.of(f))};
            for (int i = 0; i < cells.length; i++) {
                line.append(i == 0 ? "" : ",").append(cells[i] instanceof String text ? quoted(text) : cells[i] == null ? "" : cells[i]);
            }
            line.append("\r\n");
            out.write(line.toString().getBytes(StandardCharsets.UTF_8));
            line.setLength(0);
        }
        out.write(line.toString().getBytes(StandardCharsets.UTF_8)); // the head, where nothing follows
    }

    private static String words(Job.Accepted one) {
        return one == null ? null : one.at() + " " + one.who() + (one.note() == null ? "" : ": " + one.note());
    }

    /** A name from the image that begins like a formula gets a leading apostrophe, so that no table program computes it. */
    private static String quoted(String text) {
        boolean formula = !text.isEmpty() && "=+-@\t\r".indexOf(text.charAt(0)) >= 0;
        return '"' + (formula ? "'" : "") + text.replace("\"", "\"\"") + '"';
    }
}
