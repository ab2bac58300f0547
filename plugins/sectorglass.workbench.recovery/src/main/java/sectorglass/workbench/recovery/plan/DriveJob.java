package sectorglass.workbench.recovery.plan;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;

import sectorglass.image.ImageException;
import sectorglass.image.OpenImage;
import sectorglass.recovery.HeadZones;
import sectorglass.recovery.Job;
import sectorglass.recovery.JobFile;
import sectorglass.recovery.JobPasses;
import sectorglass.recovery.PassHistory;

/**
 * What the job beside an image knows of passes and heads.
 *
 * @param history what each pass added
 * @param zones which head reads which sectors
 */
record DriveJob(PassHistory history, HeadZones zones) {

    /** Reads the job; for an image without a file there is none. */
    static DriveJob of(Path image, long sectors) throws IOException {
        if (image == null) {
            return new DriveJob(JobPasses.NONE, HeadZones.NONE);
        }
        Path file = JobFile.beside(image);
        Job job = JobFile.open(file).job();
        try {
            return new DriveJob(JobPasses.history(job, file, sectors), job.zones() == null ? HeadZones.NONE : HeadZones.load(file.toAbsolutePath().resolveSibling(job.zones())));
        } catch (ImageException e) {
            throw new IOException(e.getMessage(), e);
        }
    }

    /** Keeps zones in a file beside the image, and names it in the job. */
    static HeadZones keep(Path image, HeadZones zones) throws IOException {
        if (image != null) {
            Path file = image.resolveSibling(image.getFileName() + ".zones.csv");
            zones.save(file);
            String name = file.getFileName().toString();
            JobFile.change(JobFile.beside(image), job -> job.withZones(zones.zones().isEmpty() ? null : name).logged(now(), who(), "head zones " + name));
        }
        return zones;
    }

    /** Records a pass, and gives what all passes added. */
    static PassHistory add(Path image, OpenImage opened, Path readMap) throws IOException {
        JobFile job = JobFile.open(JobFile.beside(image));
        JobPasses.add(job, opened, readMap, now(), who());
        try {
            return JobPasses.history(job.job(), job.file(), opened.sectors());
        } catch (ImageException e) {
            throw new IOException(e.getMessage(), e);
        }
    }

    private static Instant now() {
        return Instant.now().truncatedTo(ChronoUnit.SECONDS);
    }

    private static String who() {
        return System.getProperty("user.name");
    }
}
