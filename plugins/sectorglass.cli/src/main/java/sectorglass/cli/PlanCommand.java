package sectorglass.cli;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import sectorglass.disk.Disk;
import sectorglass.image.OpenImage;
import sectorglass.image.SectorRange;
import sectorglass.recovery.PathPattern;
import sectorglass.recovery.PlanOptions;
import sectorglass.recovery.ReadPlan;
import sectorglass.recovery.ReadPlanner;
import sectorglass.report.JsonOut;

/** Prints what to read next. */
@Command(description = {"Prints the sectors to read next, in stages: maps and boot sectors, file tables, folders, chosen files, allocated clusters,",
    "paging and cache files, failed places. What was read already is left out; after each stage the plan is useful alone."})
final class PlanCommand extends ImageCommand {

    @Option(names = "--chosen", paramLabel = "PATTERN", description = "Files or folders wanted first; a folder means all below it.")
    private List<String> chosen = List.of();

    @Option(names = "--later", paramLabel = "PATTERN", description = "Files that come last, instead of the usual list (paging, hibernation, caches); \"none\" for none.")
    private List<String> later = List.of();

    @Option(names = "--chosen-only", description = "Metadata and chosen files only.")
    private boolean chosenOnly;

    @Option(names = "--unallocated", description = "Everything else, too, at the end.")
    private boolean unallocated;

    @Option(names = "--no-second-pass", description = "Failed places take part in the stages instead of a second pass.")
    private boolean noSecondPass;

    @Option(names = "--csv", paramLabel = "FILE", description = "Writes all ranges as CSV: stage,kind,volume,first_lba,sectors.")
    private Path csv;

    PlanCommand(PrintStream out, PrintStream err) {
        super(out, err);
    }

    @Override
    int run(OpenImage opened) throws CommandException {
        Disk disk = survey(opened);
        ReadPlan plan = ReadPlanner.plan(disk, options(), progress());
        if (csv != null) {
            write(plan);
        }
        if (json) {
            json(plan, opened.sectorSize());
        } else {
            text(plan, opened);
        }
        return Status.DONE;
    }

    private PlanOptions options() {
        List<PathPattern> last = later.isEmpty() ? PlanOptions.USUALLY_LATER
                : later.equals(List.of("none")) ? List.of() : later.stream().map(PathPattern::new).toList();
        return new PlanOptions(chosen.stream().map(PathPattern::new).toList(), last, !chosenOnly, unallocated, !noSecondPass);
    }

    private void text(ReadPlan plan, OpenImage opened) {
        if (plan.stages().isEmpty()) {
            out.println("Nothing is left to read.");
        }
        Table table = new Table("rllrrr").row("stage", "what", "volume", "sectors", "", "ranges");
        int number = 0;
        for (ReadPlan.Stage stage : plan.stages()) {
            table.row(++number, stage.kind().words() + (stage.complete() ? "" : " (grows once earlier stages were read)"),
                    stage.volume() == null ? "all" : stage.volume(), Numbers.grouped(stage.sectors()),
                    Numbers.size(stage.sectors() * opened.sectorSize()), Numbers.grouped(stage.ranges().runs()));
        }
        table.print(out, "");
        number = 0;
        for (ReadPlan.Stage stage : plan.stages()) {
            out.println();
            out.println("Stage " + ++number + ": " + stage.reason());
            List<SectorRange> runs = new ArrayList<>();
            for (int i = 0; i < Math.min(12, stage.ranges().runs()); i++) {
                runs.add(stage.ranges().run(i));
            }
            runs.forEach(run -> out.println("  LBA " + Numbers.grouped(run.first()) + " – " + Numbers.grouped(run.last()) + "  ("
                    + Numbers.grouped(run.count()) + ")"));
            if (stage.ranges().runs() > runs.size()) {
                out.println("  … and " + Numbers.grouped(stage.ranges().runs() - runs.size()) + " more ranges; --csv or --json give all");
            }
        }
        out.println();
        out.println("To read: " + Numbers.grouped(plan.sectors()) + " of " + Numbers.grouped(plan.unread()) + " sectors not read yet; saved: "
                + Numbers.grouped(plan.saved()) + " sectors, " + Numbers.size(plan.saved() * opened.sectorSize()));
        plan.remarks().forEach(remark -> out.println("! " + remark));
    }

    private void json(ReadPlan plan, int sectorSize) {
        try (JsonOut to = new JsonOut(out)) {
            to.object(() -> {
                int[] number = {0};
                to.array("stages", plan.stages(), s -> {
                    ReadPlan.Stage stage = (ReadPlan.Stage) s;
                    to.object(() -> {
                        to.field("number", ++number[0]).field("kind", stage.kind().words()).field("volume", stage.volume())
                                .field("sectors", stage.sectors()).field("bytes", stage.sectors() * sectorSize).field("reason", stage.reason())
                                .field("complete", stage.complete());
                        to.array("ranges", stage.ranges(), r -> to.list(((SectorRange) r).first(), ((SectorRange) r).count()));
                    });
                });
                to.field("sectors", plan.sectors()).field("unread", plan.unread()).field("saved", plan.saved());
                to.array("remarks", plan.remarks(), to::value);
            }).line();
        }
    }

    private void write(ReadPlan plan) throws CommandException {
        try (BufferedWriter lines = Files.newBufferedWriter(csv, StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW)) {
            lines.write("stage,kind,volume,first_lba,sectors\n");
            int number = 0;
            for (ReadPlan.Stage stage : plan.stages()) {
                number++;
                for (SectorRange run : stage.ranges()) {
                    lines.write(number + ",\"" + stage.kind().words() + "\"," + (stage.volume() == null ? "" : stage.volume()) + "," + run.first() + ","
                            + run.count() + "\n");
                }
            }
        } catch (FileAlreadyExistsException e) {
            throw new CommandException(Status.OUTPUT, csv + " exists already and is never written over. Give another name.");
        } catch (IOException e) {
            throw new CommandException(Status.OUTPUT, csv + " could not be written: " + e.getMessage() + ".");
        }
    }
}
