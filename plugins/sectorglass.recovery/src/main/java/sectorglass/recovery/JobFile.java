package sectorglass.recovery;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.function.UnaryOperator;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.module.SimpleModule;
import com.fasterxml.jackson.databind.deser.std.FromStringDeserializer;
import com.fasterxml.jackson.databind.ser.std.ToStringSerializer;

/**
 * The job file: JSON beside the image, never in it. Saved atomically: the new text is written to a temporary file, forced to the
 * medium, and then takes the old one's name, so that a kill at any moment leaves either the old or the new text whole.
 */
public final class JobFile {
    static final ObjectMapper JSON = mapper();

    private final Path file;
    private Job job;

    private JobFile(Path file, Job job) {
        this.file = file;
        this.job = job;
    }

    /**
     * Opens a job file, or starts an empty job where there is none yet.
     *
     * @throws IOException with a sentence for people if it is no job file, or of a later version
     */
    public static JobFile open(Path file) throws IOException {
        Job job;
        try {
            job = JSON.readValue(Files.readAllBytes(file), Job.class);
        } catch (NoSuchFileException e) {
            return new JobFile(file, Job.empty());
        } catch (JsonProcessingException e) {
            String place = e.getLocation() == null ? "" : " (line " + e.getLocation().getLineNr() + ", column " + e.getLocation().getColumnNr() + ")";
            throw new IOException(file + " is not a job file: " + e.getOriginalMessage() + place + ". Nothing was changed.", e);
        }
        if (job.version() > Job.VERSION) {
            throw new IOException(file + " was written by a later version (form " + job.version() + ", known here: " + Job.VERSION
                    + "). Nothing was changed.");
        }
        return new JobFile(file, job);
    }

    /** Where the job of an image lies by default: beside it, its name with {@code .job.json} added. */
    public static Path beside(Path image) {
        return image.resolveSibling(image.getFileName() + ".job.json");
    }

    /** The file. */
    public Path file() {
        return file;
    }

    /** The job as it is now. */
    public synchronized Job job() {
        return job;
    }

    /**
     * Changes the job and saves it.
     *
     * @throws IOException if it cannot be written; the job then stays as it was
     * @throws IllegalArgumentException if the change takes lines out of the log
     */
    public synchronized void update(UnaryOperator<Job> change) throws IOException {
        Job changed = change.apply(job);
        List<Job.Entry> kept = job.log();
        if (changed.log().size() < kept.size() || !changed.log().subList(0, kept.size()).equals(kept)) {
            throw new IllegalArgumentException("the log of a job only grows");
        }
        save(changed);
        job = changed;
    }

    /**
     * Opens a job file, changes it and saves it. Changes of this program to one file come one after the other, so that none is lost.
     *
     * @return the job as it is now
     * @throws IOException as {@link #open} and {@link #update}
     */
    public static Job change(Path file, UnaryOperator<Job> change) throws IOException {
        synchronized (JSON) {
            JobFile opened = open(file);
            opened.update(change);
            return opened.job();
        }
    }

    private void save(Job changed) throws IOException {
        byte[] text = JSON.writeValueAsBytes(changed);
        Path folder = file.toAbsolutePath().getParent();
        Path fresh = Files.createTempFile(folder, file.getFileName().toString(), ".new");
        try {
            try (FileChannel out = FileChannel.open(fresh, StandardOpenOption.WRITE)) {
                ByteBuffer bytes = ByteBuffer.wrap(text);
                while (bytes.hasRemaining()) {
                    out.write(bytes);
                }
                out.force(true);
            }
            Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException e) {
            Files.deleteIfExists(fresh);
            throw e;
        }
        forceFolder(folder);
    }

    /** Makes the new name durable where the platform can; Windows cannot open folders, and needs no such call. */
    private static void forceFolder(Path folder) {
        try (FileChannel names = FileChannel.open(folder, StandardOpenOption.READ)) {
            names.force(true);
        } catch (IOException e) {
            // the text itself is safe; only a power cut right now could bring back the old name
        }
    }

    private static ObjectMapper mapper() {
        SimpleModule times = new SimpleModule();
        times.addSerializer(java.time.Instant.class, ToStringSerializer.instance);
        times.addDeserializer(java.time.Instant.class, new FromStringDeserializer<java.time.Instant>(java.time.Instant.class) {
            private static final long serialVersionUID = 1L;

            @Override
            protected java.time.Instant _deserialize(String value, com.fasterxml.jackson.databind.DeserializationContext context) {
                return java.time.Instant.parse(value);
            }
        });
        return new ObjectMapper().registerModule(times).enable(SerializationFeature.INDENT_OUTPUT)
                .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES);
    }
}
