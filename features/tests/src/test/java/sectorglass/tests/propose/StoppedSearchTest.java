package sectorglass.tests.propose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Random;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.disk.Disk;
import sectorglass.disk.Survey;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.recovery.JobFile;
import sectorglass.recovery.LostSearch;
import sectorglass.recovery.SearchResult;
import sectorglass.recovery.SearchStore;
import sectorglass.recovery.SearchTexts;
import sectorglass.report.JsonOut;
import sectorglass.report.SearchJson;
import sectorglass.testkit.Tool;

/** A search that is stopped again and again, each time with a new job file object as a new process has it, gives what one in one go gives. */
class StoppedSearchTest {
    @TempDir
    Path folder;

    /** Stops when a number of bytes were searched. */
    private static final class StopAt implements Progress {
        private final long end;
        private boolean reached;

        StopAt(long end) {
            this.end = end;
        }

        @Override
        public boolean cancelled() {
            return reached;
        }

        @Override
        public void at(String what, long done, long total) {
            reached |= total > 1 << 20 && done >= end;
        }
    }

    @Test
    void aSearchGoesOnWhereItWasStopped() throws Exception {
        Tool.require("sfdisk", "mkntfs", "mkfs.fat", "mmd", "mke2fs");
        Path file = new Disks(folder).disk("mbr-logical").file();
        byte[] bytes = Files.readAllBytes(file);
        java.util.Arrays.fill(bytes, 0, 512, (byte) 0);
        byte[] noise = new byte[1 << 20];
        new Random(11).nextBytes(noise);
        System.arraycopy(noise, 0, bytes, 26 << 20, 1 << 20);
        Files.write(file, bytes);
        try (OpenImage image = Images.open(file, OpenOptions.DEFAULT.withAlone(true))) {
            SearchResult whole = LostSearch.of(image, Progress.NONE);
            assertFalse(whole.volumes().isEmpty());
            Path job = folder.resolve("job");
            int stops = 0;
            for (int mebibytes = 7; mebibytes < 64; mebibytes += 13) {
                Disk disk = Survey.of(image, Progress.NONE);
                StopAt stop = new StopAt((long) mebibytes << 20);
                assertThrows(Progress.Stopped.class, () -> LostSearch.of(disk, JobFile.open(job), stop));
                long position = new SearchStore(JobFile.open(job)).position();
                assertTrue(position > 0 && position < bytes.length, "stands at " + position);
                stops++;
            }
            assertTrue(stops >= 4);
            SearchResult resumed = LostSearch.of(Survey.of(image, Progress.NONE), JobFile.open(job), Progress.NONE);
            assertEquals(json(whole), json(resumed));
            assertEquals(json(whole), json(new SearchStore(JobFile.open(job)).result().orElseThrow()), "as kept in the job file");
        }
    }

    /** All that the command line prints of a result. */
    private static String json(SearchResult result) throws Exception {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (JsonOut out = new JsonOut(new PrintStream(bytes, true, StandardCharsets.UTF_8))) {
            SearchJson.write(result, null, new SearchTexts(Locale.ENGLISH), out);
        }
        return bytes.toString(StandardCharsets.UTF_8);
    }
}
