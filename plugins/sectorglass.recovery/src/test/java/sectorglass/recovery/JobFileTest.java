package sectorglass.recovery;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class JobFileTest {
    /** Kills; more of them by -Dsurefire.args=-Djob.kills=200. */
    private static final int ROUNDS = Integer.getInteger("job.kills", 6);

    @TempDir
    Path folder;

    @Test
    void keepsWhatWasSaved() throws IOException {
        Path file = folder.resolve("disk.img.job.json");
        JobFile first = JobFile.open(file);
        first.update(job -> job.withMark(new Job.Mark(512, 92, "header", "länger – «so»"))
                .withParts(List.of(new Job.Part("disk.001", 0, 100L), new Job.Part("disk.002", 100, null)), 4096)
                .logged(Instant.parse("2026-01-02T03:04:05Z"), "bench 2", "opened"));
        Job again = JobFile.open(file).job();
        assertEquals(first.job(), again);
        assertEquals("länger – «so»", again.marks().get(0).note());
        assertEquals(4096, again.sectorSize());
    }

    @Test
    void keepsFieldsOfLaterVersions() throws IOException {
        Path file = folder.resolve("job.json");
        Files.writeString(file, "{\"version\":1,\"weather\":{\"sky\":\"clear\"},\"marks\":[]}");
        JobFile.open(file).update(job -> job.withNote(new Job.Note(Instant.EPOCH, "n")));
        assertTrue(Files.readString(file).contains("\"sky\" : \"clear\""), Files.readString(file));
    }

    @Test
    void saysWhyAFileIsNoJob() throws IOException {
        Path file = folder.resolve("job.json");
        Files.writeString(file, "{\n \"version\": 1,\n \"marks\": 7 }");
        IOException notAJob = assertThrows(IOException.class, () -> JobFile.open(file));
        assertTrue(notAJob.getMessage().contains("line 3"), notAJob.getMessage());
        Files.writeString(file, "{\"version\":99}");
        assertTrue(assertThrows(IOException.class, () -> JobFile.open(file)).getMessage().contains("later version"));
    }

    @Test
    void theLogOnlyGrows() throws IOException {
        JobFile file = JobFile.open(folder.resolve("job.json"));
        file.update(job -> job.logged(Instant.EPOCH, "a", "b"));
        assertThrows(IllegalArgumentException.class, () -> file.update(job -> Job.empty()));
        assertEquals(1, JobFile.open(file.file()).job().log().size());
    }

    @Test
    void aKillAtAnyMomentLosesNothingThatWasSaved() throws Exception {
        Random random = new Random(20260101 + ROUNDS);
        for (int round = 0; round < ROUNDS; round++) {
            Path file = folder.resolve("killed-" + round + ".json");
            Path said = folder.resolve("said-" + round);
            Process writer = new ProcessBuilder(Path.of(System.getProperty("java.home"), "bin", "java").toString(), "-cp",
                    System.getProperty("java.class.path"), Writer.class.getName(), file.toString())
                    .redirectError(ProcessBuilder.Redirect.INHERIT).redirectOutput(said.toFile()).start();
            int wanted = 3 + random.nextInt(20);
            while (saved(said) < wanted && writer.isAlive()) {
                Thread.sleep(random.nextInt(15));
            }
            writer.destroyForcibly().waitFor();
            int saved = saved(said);
            int kept = JobFile.open(file).job().marks().size();
            assertTrue(saved > 0 && kept >= saved, "said " + saved + " saved, found " + kept);
        }
        try (Stream<Path> left = Files.list(folder)) {
            assertTrue(left.filter(p -> p.toString().endsWith(".json")).count() == ROUNDS);
        }
    }

    /** The last number of a whole line. */
    private static int saved(Path said) throws IOException {
        String text = Files.exists(said) ? Files.readString(said) : "";
        String whole = text.substring(0, text.lastIndexOf('\n') + 1);
        return whole.isEmpty() ? 0 : Integer.parseInt(whole.lines().reduce((a, b) -> b).orElse("0"));
    }

    /** Saves mark after mark and says how many after each. */
    static final class Writer {
        private Writer() {
        }

        public static void main(String[] args) throws IOException {
            JobFile file = JobFile.open(Path.of(args[0]));
            for (int i = 1; i < 100_000; i++) {
                int number = i;
                file.update(job -> job.withMark(new Job.Mark(number, 1, "mark " + number, null)));
                System.out.println(i);
                System.out.flush();
            }
        }
    }

    @Test
    void mediaAcceptedFindingsAndApprovalsAreKept() throws IOException {
        Path file = folder.resolve("delivery.json");
        Instant at = Instant.parse("2026-02-03T04:05:06Z");
        JobFile.open(file).update(job -> job.withReference("2026-117").withZones("zones.csv").withMedium(new Job.Medium("D1", "source", "clicks"))
                .withAccepted(new Job.Accepted(at, "lab", "gpt.entries.crc32", 1024L, "known")).withApproval(new Job.Approval(at, "lab", "2026-117", "on paper", "list"))
                .logged(at, "lab", "approval"));
        Job job = JobFile.open(file).job();
        assertEquals("2026-117", job.reference());
        assertEquals("zones.csv", job.zones());
        assertEquals(List.of(new Job.Medium("D1", "source", "clicks")), job.media());
        assertEquals(1024L, job.accepted().get(0).firstByte());
        assertEquals(new Job.Approval(at, "lab", "2026-117", "on paper", "list"), job.approvals().get(0));
        assertEquals(1, job.log().size());
    }

    /** A job file written before the way of an approval was recorded. */
    @Test
    void anApprovalWithoutItsWayIsRead() throws IOException {
        Path file = folder.resolve("job.json");
        Files.writeString(file, "{\"version\":1,\"approvals\":[{\"at\":\"2026-01-02T03:04:05Z\",\"who\":\"lab\",\"by\":\"2026-117\",\"note\":\"list\"}]}");
        assertEquals(List.of(new Job.Approval(Instant.parse("2026-01-02T03:04:05Z"), "lab", "2026-117", null, "list")), JobFile.open(file).job().approvals());
    }

    @Test
    void anAcceptanceIsWithdrawnAndTheLogKeepsBoth() throws IOException {
        Path file = folder.resolve("job.json");
        Job.Accepted here = new Job.Accepted(Instant.EPOCH, "lab", "gpt.entries.crc32", 600L, "known");
        Job.Accepted everywhere = new Job.Accepted(Instant.EPOCH, "lab", "ntfs.boot.hidden-sectors", null, "moved");
        JobFile.change(file, job -> job.withAccepted(here).withAccepted(everywhere).logged(Instant.EPOCH, "lab", "accepted"));
        JobFile.change(file, job -> job.withoutAccepted(List.of(here)).logged(Instant.EPOCH, "lab", "withdrawn"));
        assertEquals(List.of(everywhere), JobFile.open(file).job().accepted());
        assertEquals(List.of("accepted", "withdrawn"), JobFile.open(file).job().log().stream().map(Job.Entry::what).toList());
    }

    @Test
    void changesFromSeveralThreadsAreAllKept() throws Exception {
        Path file = folder.resolve("job.json");
        Thread[] hands = new Thread[4];
        for (int i = 0; i < hands.length; i++) {
            hands[i] = new Thread(() -> {
                for (int n = 0; n < 10; n++) {
                    try {
                        JobFile.change(file, job -> job.logged(Instant.EPOCH, "lab", "line"));
                    } catch (IOException e) {
                        throw new java.io.UncheckedIOException(e);
                    }
                }
            });
            hands[i].start();
        }
        for (Thread hand : hands) {
            hand.join();
        }
        assertEquals(40, JobFile.open(file).job().log().size());
    }
}
