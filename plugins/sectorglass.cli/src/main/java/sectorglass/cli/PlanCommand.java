package sectorglass.cli;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import sectorglass.disk.Disk;
import sectorglass.disk.Phrases;
import sectorglass.image.OpenImage;
import sectorglass.image.SectorRange;
import sectorglass.image.Texts;
import sectorglass.recovery.HeadZones;
import sectorglass.recovery.PassHistory;
import sectorglass.recovery.PathPattern;
import sectorglass.recovery.PlanCsv;
import sectorglass.recovery.PlanOptions;
import sectorglass.recovery.ReadCost;
import sectorglass.recovery.ReadPlan;
import sectorglass.recovery.ReadPlanner;
import sectorglass.recovery.outcome.FileKind;
import sectorglass.recovery.outcome.Wish;
import sectorglass.report.JsonOut;

/** Prints what to read next. */
@Command(description = {"Prints the sectors to read next, in stages: maps and boot sectors, file tables, folders, chosen files, allocated clusters,",
    "paging and cache files, failed places. What was read already is left out; after each stage the plan is useful alone."})
final class PlanCommand extends ImageCommand {

    @Option(names = "--chosen", paramLabel = "PATTERN", description = "Files or folders wanted first; a folder means all below it.")
    private List<String> chosen = List.of();

    @Option(names = "--later", paramLabel = "PATTERN", description = "Files that come last, instead of the usual list (paging, hibernation, caches); \"none\" for none.")
    private List<String> later = List.of();

    @Option(names = "--wanted", paramLabel = "FILE", description = "The customer's wanted list (CSV: name,folder,kind,from,to,note); its files come first, too.")
    private Path wanted;

    @Option(names = "--kind", paramLabel = "KIND", description = "Files of this kind come first: picture, camera-raw, video, sound, document, mail, archive, database.")
    private List<String> kinds = List.of();

    @Option(names = "--from", converter = Day.class, paramLabel = "DATE", description = "Files changed on this day (2026-01-31) or later come first; with --kind, of those kinds.")
    private LocalDate from;

    @Option(names = "--until", converter = Day.class, paramLabel = "DATE", description = "Files changed on this day or earlier come first; with --kind, of those kinds.")
    private LocalDate until;

    @Option(names = "--zones", paramLabel = "FILE", description = "Which head serves which sectors (CSV: first_lba,sectors,head).")
    private Path zones;

    @Option(names = "--weak", split = ",", paramLabel = "HEAD", description = "Heads whose sectors come last, after everything else.")
    private List<Integer> weak = List.of();

    @Option(names = "--head", split = ",", paramLabel = "HEAD", description = "Plans the sectors of these heads only.")
    private List<Integer> heads = List.of();

    @Option(names = "--speed", paramLabel = "MB/S", description = "Measured reading speed: gives times, and with --seek closes small gaps.")
    private double speed;

    @Option(names = "--seek", paramLabel = "MS", description = "Time to the next range (with --speed; default 20): gaps that take less are read. 0 leaves all gaps out.")
    private double seek = 20;

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

    private PlanOptions options() throws CommandException {
        List<PathPattern> last = later.isEmpty() ? PlanOptions.USUALLY_LATER
                : later.equals(List.of("none")) ? List.of() : later.stream().map(PathPattern::new).toList();
        PlanOptions options = new PlanOptions(chosen.stream().map(PathPattern::new).toList(), last, !chosenOnly, unallocated, !noSecondPass)
                .withWishes(wishes()).withFailedAgain(source.failedAgain());
        if (!weak.isEmpty() || !heads.isEmpty()) {
            HeadZones known = zones();
            options = options.withHeads(known.of(weak), heads.isEmpty() ? null : known.of(heads));
        }
        return speed > 0 ? options.withCost(cost()) : options;
    }

    private List<Wish> wishes() throws CommandException {
        List<Wish> wishes = new ArrayList<>(WantedOption.load(wanted).wishes());
        List<FileKind> known = new ArrayList<>();
        for (String word : kinds) {
            FileKind kind = FileKind.ofWord(word);
            if (kind == null) {
                throw new CommandException(Status.USE, "--kind " + word + " is no kind of file; kinds are "
                        + String.join(", ", java.util.Arrays.stream(FileKind.values()).map(FileKind::word).toList()) + ".");
            }
            known.add(kind);
        }
        if (known.isEmpty() && (from != null || until != null)) {
            known.add(null);
        }
        known.forEach(kind -> wishes.add(new Wish(0, "", "", kind, from, until, "")));
        return wishes;
    }

    private HeadZones zones() throws CommandException {
        Path file = zones != null ? zones : source.jobZones();
        if (file == null) {
            throw new CommandException(Status.USE, "--weak and --head need --zones FILE, which tells which head serves which sectors.");
        }
        try {
            return HeadZones.load(file);
        } catch (java.nio.file.NoSuchFileException e) {
            throw new CommandException(Status.USE, "There is no file of zones " + file + ".");
        } catch (IOException e) {
            throw new CommandException(Status.USE, e.getMessage());
        }
    }

    private ReadCost cost() throws CommandException {
        try {
            return new ReadCost(speed * 1e6, seek / 1000);
        } catch (IllegalArgumentException e) {
            throw new CommandException(Status.USE, "--speed and --seek make no sense: " + e.getMessage() + ".");
        }
    }

    /** "2 h 05 min" */
    private static String time(double seconds) {
        long all = Math.round(seconds);
        return all >= 3600 ? all / 3600 + " h " + String.format(Locale.ROOT, "%02d", all % 3600 / 60) + " min" : all >= 60 ? all / 60 + " min " + all % 60 + " s" : all + " s";
    }

    private double seconds(ReadPlan.Stage stage, int sectorSize) throws CommandException {
        return cost().seconds(stage.ranges(), sectorSize);
    }

    private void passes() {
        for (PassHistory.Pass pass : source.history().passes()) {
            out.println(texts().of("plan.pass", pass.name(), Numbers.grouped(pass.added()), Numbers.grouped(pass.rescued()), Numbers.grouped(pass.failed()),
                    Numbers.grouped(pass.left())));
        }
    }

    private void text(ReadPlan plan, OpenImage opened) throws CommandException {
        Texts texts = texts();
        Phrases phrases = Phrases.in(locale());
        passes();
        if (plan.stages().isEmpty()) {
            out.println(texts.of("plan.nothing"));
        }
        Table table = new Table("rllrrrr").row(texts.of("plan.column.stage"), texts.of("plan.column.what"), texts.of("plan.column.volume"),
                texts.of("plan.column.sectors"), "", texts.of("plan.column.ranges"), speed > 0 ? texts.of("plan.column.time") : "");
        double all = 0;
        int number = 0;
        for (ReadPlan.Stage stage : plan.stages()) {
            double seconds = speed > 0 ? seconds(stage, opened.sectorSize()) : 0;
            all += seconds;
            table.row(++number, phrases.of(stage.kind().words()) + (stage.weak() ? ", " + texts.of("plan.weak") : "")
                    + (stage.complete() ? "" : " " + texts.of("plan.grows")), stage.volume() == null ? texts.of("plan.all") : stage.volume(), Numbers.grouped(stage.sectors()),
                    Numbers.size(stage.sectors() * opened.sectorSize()), Numbers.grouped(stage.ranges().runs()), speed > 0 ? time(seconds) : "");
        }
        table.print(out, "");
        number = 0;
        for (ReadPlan.Stage stage : plan.stages()) {
            out.println();
            out.println(texts.of("plan.stage", Integer.toString(++number), phrases.of(stage.reason())) + (stage.weak() ? "; " + texts.of("plan.stage.weak") : "")
                    + (stage.bridged() == 0 ? "" : "; " + texts.of("plan.stage.bridged", Numbers.grouped(stage.bridged()))));
            List<SectorRange> runs = new ArrayList<>();
            for (int i = 0; i < Math.min(12, stage.ranges().runs()); i++) {
                runs.add(stage.ranges().run(i));
            }
            runs.forEach(run -> out.println("  LBA " + Numbers.grouped(run.first()) + " – " + Numbers.grouped(run.last()) + "  ("
                    + Numbers.grouped(run.count()) + ")"));
            if (stage.ranges().runs() > runs.size()) {
                out.println("  " + texts.of("plan.more", Numbers.grouped(stage.ranges().runs() - runs.size())));
            }
        }
        out.println();
        out.println(texts.of("plan.read", Numbers.grouped(plan.sectors()), Numbers.grouped(plan.unread()), Numbers.grouped(plan.saved()),
                Numbers.size(plan.saved() * opened.sectorSize())));
        if (speed > 0) {
            out.println(texts.of("plan.time", time(all)));
        }
        plan.remarks().forEach(remark -> out.println("! " + phrases.of(remark)));
    }

    private void json(ReadPlan plan, int sectorSize) throws CommandException {
        ReadCost cost = speed > 0 ? cost() : null;
        try (JsonOut to = new JsonOut(out)) {
            to.object(() -> {
                int[] number = {0};
                to.array("stages", plan.stages(), s -> {
                    ReadPlan.Stage stage = (ReadPlan.Stage) s;
                    to.object(() -> {
                        to.field("number", ++number[0]).field("kind", stage.kind().words()).field("volume", stage.volume())
                                .field("sectors", stage.sectors()).field("bytes", stage.sectors() * sectorSize).field("reason", stage.reason())
                                .field("complete", stage.complete()).field("weak", stage.weak()).field("bridged", stage.bridged())
                                .field("seconds", cost == null ? null : cost.seconds(stage.ranges(), sectorSize));
                        to.array("ranges", stage.ranges(), r -> to.list(((SectorRange) r).first(), ((SectorRange) r).count()));
                    });
                });
                to.field("sectors", plan.sectors()).field("unread", plan.unread()).field("saved", plan.saved());
                to.array("remarks", plan.remarks(), to::value);
                to.array("passes", source.history().passes(), p -> {
                    PassHistory.Pass pass = (PassHistory.Pass) p;
                    to.object(() -> to.field("name", pass.name()).field("added", pass.added()).field("rescued", pass.rescued()).field("failed", pass.failed())
                            .field("left", pass.left()));
                });
            }).line();
        }
    }

    private void write(ReadPlan plan) throws CommandException {
        try {
            PlanCsv.write(plan, csv);
        } catch (FileAlreadyExistsException e) {
            throw new CommandException(Status.OUTPUT, csv + " exists already and is never written over. Give another name.");
        } catch (IOException e) {
            throw new CommandException(Status.OUTPUT, csv + " could not be written: " + e.getMessage() + ".");
        }
    }
}
