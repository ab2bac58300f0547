package sectorglass.cli;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

import sectorglass.image.OpenImage;
import sectorglass.image.SafeText;
import sectorglass.recovery.Job;
import sectorglass.recovery.JobFile;
import sectorglass.report.MarksOut;

/** Lists, adds and takes away marks. */
@Command(description = {"Lists the marks of an image: named byte ranges with notes, kept in the job file beside it (IMAGE.job.json, or --job).",
    "--add and --remove change the job file, never the image."})
final class MarksCommand extends ImageCommand {

    @Option(names = "--add", paramLabel = "NAME", description = "Adds a mark of this name; needs --at.")
    private String add;

    @Option(names = "--at", paramLabel = "BYTE", description = "First image byte of the mark.")
    private Long at;

    @Option(names = "--length", paramLabel = "BYTES", description = "Its length (default 1).")
    private long length = 1;

    @Option(names = "--note", paramLabel = "TEXT", description = "Its note.")
    private String note;

    @Option(names = "--remove", paramLabel = "NAME", description = "Takes all marks of this name away.")
    private String remove;

    @Option(names = "--csv", description = "CSV instead of text.")
    private boolean csv;

    MarksCommand(PrintStream out, PrintStream err) {
        super(out, err);
    }

    @Override
    int run(OpenImage opened) throws CommandException, IOException {
        JobFile file = file(opened.path());
        if (add != null) {
            add(file, opened.bytes());
        }
        if (remove != null && !remove(file)) {
            throw new CommandException(Status.USE, "No mark is called \"" + SafeText.of(remove) + "\".");
        }
        List<Job.Mark> marks = file.job().marks();
        if (json) {
            MarksOut.json(out, marks, opened.sectorSize());
        } else if (csv) {
            MarksOut.csv(out, marks, opened.sectorSize());
            out.flush();
        } else {
            text(marks, opened.sectorSize());
        }
        return Status.DONE;
    }

    private JobFile file(Path image) throws CommandException {
        try {
            return JobFile.open(source.job() == null ? JobFile.beside(image) : source.job());
        } catch (IOException e) {
            throw new CommandException(Status.USE, e.getMessage());
        }
    }

    private void add(JobFile file, long bytes) throws CommandException {
        if (at == null || at < 0 || length < 1 || at >= bytes || length > bytes - at) {
            throw new CommandException(Status.USE, "A mark needs --at, and --at and --length must name bytes of the image (0 to " + (bytes - 1) + ").");
        }
        change(file, job -> job.withMark(new Job.Mark(at, length, add, note)));
    }

    private boolean remove(JobFile file) throws CommandException {
        List<Job.Mark> kept = new ArrayList<>(file.job().marks());
        boolean any = kept.removeIf(mark -> remove.equals(mark.name()));
        if (any) {
            change(file, job -> job.withMarks(kept));
        }
        return any;
    }

    private static void change(JobFile file, java.util.function.UnaryOperator<Job> how) throws CommandException {
        try {
            file.update(how);
        } catch (IOException e) {
            throw new CommandException(Status.OUTPUT, "The job file could not be written: " + e.getMessage());
        }
    }

    private void text(List<Job.Mark> marks, int sectorSize) {
        Table table = new Table("llrrl").row("Name", "Where", "Image byte", "Length", "Note");
        for (Job.Mark mark : marks) {
            table.row(SafeText.of(String.valueOf(mark.name())), "LBA " + Numbers.grouped(Math.floorDiv(mark.firstByte(), sectorSize)) + ", byte "
                    + Math.floorMod(mark.firstByte(), sectorSize), Numbers.address(mark.firstByte()), Numbers.grouped(mark.length()),
                    mark.note() == null ? "" : SafeText.of(mark.note()));
        }
        if (marks.isEmpty()) {
            out.println("No marks.");
        } else {
            table.print(out, "");
        }
    }
}
