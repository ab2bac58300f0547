package sectorglass.report;

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

import sectorglass.recovery.Job;

/** Writes marks: CSV (RFC 4180) or JSON. */
public final class MarksOut {
    private static final String HEAD = "name,firstByte,length,lba,byteInSector,note";

    private MarksOut() {
    }

    /** One object with the list of marks. */
    public static void json(OutputStream out, List<Job.Mark> marks, int sectorSize) {
        try (JsonOut json = new JsonOut(out)) {
            json.object(() -> json.array("marks", marks, each -> {
                Job.Mark mark = (Job.Mark) each;
                json.object(() -> json.field("name", mark.name()).field("firstByte", mark.firstByte()).field("length", mark.length())
                        .field("lba", Math.floorDiv(mark.firstByte(), sectorSize)).field("byteInSector", Math.floorMod(mark.firstByte(), sectorSize))
                        .field("note", mark.note()));
            })).line();
        }
    }

    /** A line of names and a line for each mark, ended by CR and LF as RFC 4180, section 2, asks. */
    public static void csv(OutputStream out, List<Job.Mark> marks, int sectorSize) throws IOException {
        StringBuilder text = new StringBuilder(HEAD).append("\r\n");
        for (Job.Mark mark : marks) {
            text.append(quoted(mark.name())).append(',').append(mark.firstByte()).append(',').append(mark.length()).append(',')
                    .append(Math.floorDiv(mark.firstByte(), sectorSize)).append(',').append(Math.floorMod(mark.firstByte(), sectorSize)).append(',')
                    .append(quoted(mark.note())).append("\r\n");
        }
        out.write(text.toString().getBytes(StandardCharsets.UTF_8));
    }

    /**
     * Writes a file whose name ends in {@code .json} as JSON, any other as CSV. It appears whole or not at all.
     *
     * @param image the image the marks belong to, which is never written; or null
     * @throws IOException with a sentence if the file is the image, or cannot be written
     */
    public static void write(Path file, List<Job.Mark> marks, int sectorSize, Path image) throws IOException {
        if (image != null && Files.exists(file) && Files.isSameFile(file, image)) {
            throw new IOException(file + " is the image itself; it is never written");
        }
        Path fresh = Files.createTempFile(file.toAbsolutePath().getParent(), "marks", ".new");
        try {
            try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(fresh))) {
                if (file.getFileName().toString().toLowerCase(Locale.ROOT).endsWith(".json")) {
                    json(out, marks, sectorSize);
                } else {
                    csv(out, marks, sectorSize);
                }
            }
            Files.move(fresh, file, StandardCopyOption.REPLACE_EXISTING);
        } catch (UncheckedIOException e) {
            throw e.getCause();
        } finally {
            Files.deleteIfExists(fresh);
        }
    }

    /** A text that begins like a formula gets a leading apostrophe, so that no table program computes it. */
    private static String quoted(String text) {
        if (text == null || text.isEmpty()) {
            return "";
        }
        return '"' + ("=+-@\t\r".indexOf(text.charAt(0)) >= 0 ? "'" : "") + text.replace("\"", "\"\"") + '"';
    }
}
