package sectorglass.cli;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.image.ReadState;
import sectorglass.image.SafeText;
import sectorglass.image.SectorRanges;
import sectorglass.recovery.Disputes;
import sectorglass.recovery.MergeExport;
import sectorglass.recovery.MergePlan;
import sectorglass.recovery.Passes;
import sectorglass.recovery.SameDisk;
import sectorglass.report.JsonOut;
import sectorglass.verify.RuleBook;

/** Compares copies of one disk, and merges them. */
@Command(description = {"Compares copies (passes) of one disk: where they differ, who was read where, which copy passes the structures' own checks.",
    "--merge-to writes a merged image with a read map and a log of where each range came from.",
    "With one image: the places in it that should agree (copies of tables, boot sectors, FATs, file records), or two that --at names.",
    "With two folders: numbered dumps that were taken twice, number by number."})
final class CompareCommand implements Callable<Integer> {

    @Parameters(arity = "1..*", paramLabel = "COPY",
            description = "Two or more images of the same disk; one image; or two folders of numbered dumps.")
    private List<Path> files;

    @Option(names = "--read-map", paramLabel = "FILE", description = "Read map of a copy, given once per copy in their order; \"none\" for a copy without one.")
    private List<String> readMaps = List.of();

    @Option(names = "--sector-size", paramLabel = "N", description = "512, 1024, 2048 or 4096; otherwise found from structures.")
    private int sectorSize;

    @Option(names = "--merge-to", paramLabel = "FILE", description = "Writes the merged image here; never over a file.")
    private Path mergeTo;

    @Option(names = "--merge-anyway", description = "Merges although the copies seem to be of different disks or states; the log says so.")
    private boolean mergeAnyway;

    @Option(names = "--at", paramLabel = "BYTE", description = "With one image, twice: the image bytes where the places begin that are compared.")
    private List<String> at = List.of();

    @Option(names = "--length", paramLabel = "N", description = "With --at: bytes compared; without it one sector.")
    private long length;

    @Option(names = "--json", description = "JSON instead of text.")
    private boolean json;

    @Option(names = "--quiet", description = "Nothing but the result.")
    private boolean quiet;

    @Option(names = "--language", paramLabel = "CODE", description = "Language of texts: en (default) or de.")
    private String language = "en";

    @Option(names = {"-h", "--help"}, usageHelp = true, description = "Shows this help.")
    private boolean help;

    private final PrintStream out;
    private final PrintStream err;

    CompareCommand(PrintStream out, PrintStream err) {
        this.out = out;
        this.err = err;
    }

    @Override
    public Integer call() throws Exception {
        if (files.size() == 2 && Files.isDirectory(files.get(0)) && Files.isDirectory(files.get(1))) {
            only(mergeTo == null && at.isEmpty(), "Two folders of dumps are compared only: --merge-to and --at are for images.");
            new DumpsText(out, json).print(files.get(0), files.get(1), progress());
            return Status.DONE;
        }
        only(at.isEmpty() || files.size() == 1 && at.size() == 2, "--at is given twice, with one image.");
        if (files.size() == 1) {
            only(mergeTo == null, "--merge-to needs two copies or more.");
            return places();
        }
        if (!readMaps.isEmpty() && readMaps.size() != files.size()) {
            throw new CommandException(Status.USE, "There are " + files.size() + " copies but " + readMaps.size()
                    + " read maps: give one per copy, \"none\" where there is none.");
        }
        List<OpenImage> images = new ArrayList<>();
        try {
            for (int i = 0; i < files.size(); i++) {
                Path map = readMaps.isEmpty() || readMaps.get(i).equals("none") ? null : Path.of(readMaps.get(i));
                images.add(Images.open(files.get(i), OpenOptions.DEFAULT.withSectorSize(sectorSize).withReadMap(map)));
                if (images.get(i).sectorSize() != images.get(0).sectorSize()) {
                    throw new CommandException(Status.USE, "Copy 1 has sectors of " + images.get(0).sectorSize() + " bytes, copy " + (i + 1)
                            + " of " + images.get(i).sectorSize() + ". Set one size with --sector-size.");
                }
            }
            return compare(images);
        } finally {
            images.forEach(OpenImage::close);
        }
    }

    private static void only(boolean holds, String sentence) throws CommandException {
        if (!holds) {
            throw new CommandException(Status.USE, sentence);
        }
    }

    private int places() throws Exception {
        Path map = readMaps.isEmpty() || readMaps.get(0).equals("none") ? null : Path.of(readMaps.get(0));
        try (OpenImage image = Images.open(files.get(0), OpenOptions.DEFAULT.withSectorSize(sectorSize).withReadMap(map))) {
            PlacesText text = new PlacesText(out, image, json);
            if (at.isEmpty()) {
                text.print(Locale.forLanguageTag(language), progress());
            } else {
                text.print(place(at.get(0), image), place(at.get(1), image), length == 0 ? image.sectorSize() : length, progress());
            }
            return Status.DONE;
        }
    }

    private long place(String text, OpenImage image) throws CommandException {
        try {
            long from = Long.decode(text);
            only(from >= 0 && length >= 0 && from < image.bytes() && Math.max(length, 1) <= image.bytes() - from,
                    "The bytes from " + text + " on lie outside the image, which has " + image.bytes() + " bytes.");
            return from;
        } catch (NumberFormatException e) {
            throw new CommandException(Status.USE, "\"" + text + "\" is no byte address: give a decimal number, or 0x and a hex number.");
        }
    }

    private Progress progress() {
        return quiet || json || System.console() == null ? Progress.NONE : new ConsoleProgress(err);
    }

    private int compare(List<OpenImage> images) throws Exception {
        Progress progress = progress();
        Passes passes = Passes.of(images, RuleBook.ofProviders(Locale.forLanguageTag(language)), progress);
        SameDisk same = passes.sameDisk();
        boolean sure = same.answer() == SameDisk.Answer.SAME;
        if (mergeTo != null && !sure && !mergeAnyway) {
            print(images, passes, null);
            throw new CommandException(Status.USE, "Not merged: " + String.join("; ", same.reasons())
                    + ". If the copies are of one disk after all, give --merge-anyway; the log will say so.");
        }
        MergeExport.Written written = mergeTo == null ? null : merge(passes, sure, progress);
        print(images, passes, written);
        return Status.DONE;
    }

    private MergeExport.Written merge(Passes passes, boolean sure, Progress progress) throws CommandException {
        List<String> remarks = new ArrayList<>();
        remarks.add("same disk: " + word(passes.sameDisk()) + " – " + String.join("; ", passes.sameDisk().reasons()));
        if (!sure) {
            remarks.add("merged on the word of the person who gave --merge-anyway");
        }
        try {
            return MergeExport.write(passes.merged(), passes.plan(), mergeTo, files.stream().map(Path::toString).toList(), remarks, progress);
        } catch (FileAlreadyExistsException e) {
            throw new CommandException(Status.OUTPUT, e.getMessage() + " exists already and is never written over. Give another name.");
        } catch (IOException e) {
            throw new CommandException(Status.OUTPUT, "The merged image could not be written to " + mergeTo + ": " + e.getMessage()
                    + ". What was written so far was removed.");
        }
    }

    private static String word(SameDisk same) {
        return same.answer().name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    private void print(List<OpenImage> images, Passes passes, MergeExport.Written written) {
        if (json) {
            json(images, passes, written);
            return;
        }
        Table table = new Table("rlrr").row("copy", "", "sectors", "read");
        for (int i = 0; i < images.size(); i++) {
            table.row(i + 1, SafeText.of(files.get(i).toString()), Numbers.grouped(images.get(i).sectors()), Numbers.grouped(read(images.get(i))));
        }
        table.print(out, "");
        out.println("Same disk: " + word(passes.sameDisk()) + " – " + String.join("; ", passes.sameDisk().reasons()));
        out.println("Sectors: agree " + Numbers.grouped(passes.comparison().agree().count()) + " · differ "
                + Numbers.grouped(passes.comparison().differ().count()) + " · read in no copy " + Numbers.grouped(passes.comparison().nowhere().count()));
        for (int i = 0; i < images.size(); i++) {
            out.println("  only in copy " + (i + 1) + ": " + Numbers.grouped(passes.comparison().onlyIn().get(i).count()));
        }
        ranges("Differ, and the checks of the structure there pass in one copy only", passes, MergePlan.Reason.PASSES_CHECKS);
        ranges("Differ, and the checks that the structure itself carries hold in one copy only", passes, MergePlan.Reason.PASSES_FULL_CHECKS);
        ranges("Differ, and nothing here decides", passes, MergePlan.Reason.DISPUTED);
        if (passes.disputes().open() > 0) {
            out.println("  of these sectors: " + String.join(", ", open(passes.disputes())));
        }
        if (written != null) {
            out.println("Merged image: " + written.image() + ", read map " + written.readMap() + ", log " + written.log());
        }
    }

    private static List<String> open(Disputes disputes) {
        List<String> words = new ArrayList<>();
        add(words, disputes.bothHold(), "hold in several copies");
        add(words, disputes.allFail(), "fail in every copy");
        add(words, disputes.unchecked(), "carry no check (content of files, mostly)");
        add(words, disputes.notLooked(), "were not looked at, the time for it was over");
        return words;
    }

    private static void add(List<String> words, long count, String what) {
        if (count > 0) {
            words.add(Numbers.grouped(count) + " " + what);
        }
    }

    private void ranges(String title, Passes passes, MergePlan.Reason why) {
        SectorRanges ranges = passes.plan().ranges(why);
        if (ranges.isEmpty()) {
            return;
        }
        out.println(title + ":");
        for (MergePlan.Choice choice : passes.plan().choices()) {
            if (choice.why() == why) {
                out.println("  LBA " + Numbers.grouped(choice.range().first()) + " – " + Numbers.grouped(choice.range().last())
                        + (why != MergePlan.Reason.DISPUTED ? ": copy " + (choice.copy() + 1) : ""));
            }
        }
    }

    private static long read(OpenImage image) {
        return image.inState(ReadState.READ, image.all()).count();
    }

    private void json(List<OpenImage> images, Passes passes, MergeExport.Written written) {
        try (JsonOut to = new JsonOut(out)) {
            to.object(() -> {
                to.array("copies", images, i -> to.object(() -> to.field("path", ((OpenImage) i).path()).field("sectors", ((OpenImage) i).sectors())
                        .field("read", read((OpenImage) i))));
                to.object("sameDisk", () -> {
                    to.field("answer", word(passes.sameDisk()));
                    to.array("reasons", passes.sameDisk().reasons(), to::value);
                    double share = passes.sameDisk().agreeing();
                    to.field("agreeing", Double.isNaN(share) ? null : share);
                });
                to.object("counts", () -> {
                    to.field("agree", passes.comparison().agree().count()).field("differ", passes.comparison().differ().count())
                            .field("nowhere", passes.comparison().nowhere().count());
                    to.array("onlyIn", passes.comparison().onlyIn(), r -> to.value(((SectorRanges) r).count()));
                });
                Disputes disputes = passes.disputes();
                to.object("disputes", () -> to.field("decided", disputes.decided()).field("bothHold", disputes.bothHold()).field("allFail", disputes.allFail())
                        .field("unchecked", disputes.unchecked()).field("notLooked", disputes.notLooked()));
                to.array("ranges", passes.plan().choices(), c -> {
                    MergePlan.Choice choice = (MergePlan.Choice) c;
                    to.object(() -> to.field("firstLba", choice.range().first()).field("sectors", choice.range().count())
                            .field("copy", choice.copy() < 0 ? null : choice.copy() + 1).field("why", choice.why().word()));
                });
                to.field("merged", written == null ? null : written.image());
            }).line();
        }
    }
}
