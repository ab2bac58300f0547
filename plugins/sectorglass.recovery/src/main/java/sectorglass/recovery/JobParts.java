package sectorglass.recovery;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

import sectorglass.image.ByteRange;
import sectorglass.image.GivenPart;
import sectorglass.image.ImagePart;
import sectorglass.image.SectorRange;

/** The parts of an image in the order that a job keeps: files beside the job file by their name, others with their path. */
public final class JobParts {

    private JobParts() {
    }

    /** The parts of a job; an empty list where it names none. A file that is gone is a missing part of the size that it had. */
    public static List<GivenPart> given(Job job, Path jobFile) {
        List<GivenPart> found = new ArrayList<>();
        for (Job.Part part : job.parts()) {
            Path file = part.file() == null ? null : jobFile.toAbsolutePath().resolveSibling(part.file());
            boolean sized = part.bytes() != null && part.bytes() > 0;
            if (file != null && (Files.exists(file) || !sized)) {
                found.add(new GivenPart(file, GivenPart.WHOLE));
            } else if (sized) {
                found.add(new GivenPart(null, part.bytes()));
            }
        }
        return List.copyOf(found);
    }

    /**
     * Keeps an order, with a line in the log.
     *
     * @param parts laid one after the other; an empty list: parts are found by their numbers again
     * @throws IOException if the job cannot be written
     */
    public static void keep(Path jobFile, List<ImagePart> parts, int sectorSize, Instant at, String who) throws IOException {
        List<Job.Part> named = new ArrayList<>();
        List<String> words = new ArrayList<>();
        for (ImagePart part : parts) {
            SectorRange sectors = new ByteRange(part.start(), part.bytes()).sectors(sectorSize);
            String name = part.missing() ? null : JobPasses.named(jobFile, part.file());
            named.add(new Job.Part(name, sectors.first(), sectors.count(), part.bytes()));
            words.add(name == null ? "missing, " + part.bytes() + " bytes" : name);
        }
        JobFile.change(jobFile, known -> known.withParts(named, known.sectorSize())
                .logged(at, who, named.isEmpty() ? "parts of the image found by their numbers again" : "order of the parts set: " + String.join("; ", words)));
    }
}
