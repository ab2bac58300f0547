package sectorglass.workbench.marks;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

import sectorglass.image.ByteRange;
import sectorglass.recovery.Job;
import sectorglass.recovery.Job.Mark;
import sectorglass.recovery.JobFile;

class MarksTest {
    private static final Mark FIRST = new Mark(512, 8, "signature", "EFI PART");
    private static final Mark SECOND = new Mark(1024, 128, "entry", null);

    @TempDir
    Path folder;
    private final Deque<Runnable> work = new ArrayDeque<>();
    private int changed;
    private final Marks marks = new Marks(work::add, Runnable::run, () -> changed++);

    private Path image() {
        return folder.resolve("disk.img");
    }

    private void open() {
        marks.open(image());
        work();
    }

    private void work() {
        while (!work.isEmpty()) {
            work.poll().run();
        }
    }

    private List<Mark> stored() throws IOException {
        return JobFile.open(JobFile.beside(image())).job().marks();
    }

    @Test
    void marksAreKeptBesideTheImageAndComeBack() throws IOException {
        open();
        marks.add(SECOND);
        marks.add(FIRST);
        work();
        assertEquals(List.of(FIRST, SECOND), marks.all(), "by address");
        assertEquals(List.of(FIRST, SECOND), stored());
        Marks again = new Marks(work::add, Runnable::run, () -> { });
        again.open(image());
        work();
        assertEquals(List.of(FIRST, SECOND), again.all());
        assertFalse(Files.exists(image()), "the image itself is not touched");
    }

    @Test
    void whatElseStandsInTheJobFileStays() throws IOException {
        open();
        JobFile.open(JobFile.beside(image())).update(job -> job.withNote(new Job.Note(Instant.EPOCH, "by hand")));
        marks.add(FIRST);
        work();
        assertEquals("by hand", JobFile.open(JobFile.beside(image())).job().notes().get(0).text());
    }

    @Test
    void changesAreTakenBackAndMadeAgain() throws IOException {
        open();
        marks.add(FIRST);
        Mark named = new Mark(512, 8, "other name", null);
        marks.replace(FIRST, named);
        marks.remove(named);
        assertEquals(List.of(), marks.all());
        marks.undo();
        assertEquals(List.of(named), marks.all());
        marks.undo();
        assertEquals(List.of(FIRST), marks.all());
        marks.redo();
        assertEquals(List.of(named), marks.all());
        work();
        assertEquals(List.of(named), stored());
        marks.add(SECOND);
        assertFalse(marks.canRedo(), "a new change ends what was taken back");
    }

    @Test
    void marksAreFoundByTheirBytes() {
        open();
        marks.add(FIRST);
        marks.add(new Mark(-5, 1, "no place", null));
        marks.add(new Mark(Long.MAX_VALUE, 2, "no place either", null));
        assertEquals(List.of(FIRST), marks.in(new ByteRange(519, 10)));
        assertEquals(List.of(), marks.in(new ByteRange(520, 10)));
        assertNull(Marks.bytes(marks.all().get(0)));
    }

    @Test
    void aJobFileThatCannotBeUsedIsNotOverwritten() throws IOException {
        Files.writeString(JobFile.beside(image()), "not json");
        open();
        assertNotNull(marks.trouble());
        marks.add(FIRST);
        work();
        assertTrue(marks.trouble().contains("not a job file"), marks.trouble());
        assertEquals("not json", Files.readString(JobFile.beside(image())));
    }

    @Test
    void anImageWithoutAFileHasMarksThatAreNotKept() {
        marks.open(null);
        marks.add(FIRST);
        assertNotNull(marks.trouble());
        assertEquals(List.of(FIRST), marks.all());
        assertTrue(work.isEmpty());
    }

    @Test
    void newNamesAreFree() {
        open();
        marks.add(new Mark(0, 1, marks.freeName(), null));
        marks.add(new Mark(1, 1, marks.freeName(), null));
        assertEquals(2, marks.all().stream().map(Mark::name).distinct().count());
    }
}
