package sectorglass.cli;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import sectorglass.image.Progress;
import sectorglass.practice.disk.DiskKey;
import sectorglass.practice.disk.PracticeException;
import sectorglass.practice.disk.PracticeMaker;
import sectorglass.practice.disk.PracticeSet;

/** Makes practice disks, and grades answers. */
@Command(description = {"Makes a practice disk with planted faults, a task sheet, an answer form and a key: practice --seed N --level L --to DIR.",
    "\"practice grade ANSWERS... --key FILE\" grades answer forms. \"practice kinds\" lists the kinds of faults.",
    "The same seed and level give the same disk on every machine. The key lies in DIR/teacher, apart from what learners are given."})
final class PracticeCommand implements Callable<Integer> {

    @Parameters(arity = "0..*", paramLabel = "grade ANSWERS | kinds", description = "Grades answer forms, or lists the kinds of faults, instead of making a disk.")
    private List<String> words = List.of();

    @Option(names = "--seed", paramLabel = "N", description = "Any whole number; whoever knows it can make the disk and its key again.")
    private Long seed;

    @Option(names = "--level", paramLabel = "L", description = "1 (one fault in a map or a boot sector) to 5 (up to five faults of any kind, or none).")
    private Integer level;

    @Option(names = "--to", paramLabel = "DIR", description = "The folder to write into; made where it is missing.")
    private Path to;

    @Option(names = "--class", paramLabel = "COUNT", description = "A set of so many different disks with one key.")
    private Integer count;

    @Option(names = "--fault", paramLabel = "KIND", description = "A disk with a fault of this kind, instead of --level; may be given several times.")
    private List<String> faults = List.of();

    @Option(names = "--exam", description = "The workbench keeps findings and explanations closed.")
    private boolean exam;

    @Option(names = "--key", paramLabel = "FILE", description = "The key to grade by.")
    private Path key;

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

    PracticeCommand(PrintStream out, PrintStream err) {
        this.out = out;
        this.err = err;
    }

    @Override
    public Integer call() throws Exception {
        Locale locale = Locale.forLanguageTag(language);
        try {
            if (words.isEmpty()) {
                return make(locale);
            }
            if (words.get(0).equals("kinds") && words.size() == 1) {
                PracticeMaker.kinds().forEach((name, from) -> out.println(from + "  " + name));
                return Status.DONE;
            }
            if (!words.get(0).equals("grade") || words.size() < 2 || key == null) {
                throw new CommandException(Status.USE, "Give \"grade\", one or more answer forms, and --key with the key; or \"kinds\"; or --seed, --level and --to.");
            }
            return new PracticeGrades(out, err, json, locale).run(words.subList(1, words.size()), key);
        } catch (PracticeException e) {
            throw new CommandException(Status.USE, e.getMessage());
        }
    }

    private int make(Locale locale) throws CommandException {
        if (seed == null || to == null || (level == null) == faults.isEmpty()) {
            throw new CommandException(Status.USE, "A practice disk needs --seed, --to, and either --level or --fault.");
        }
        if (level != null && (level < 1 || level > PracticeMaker.LEVELS)) {
            throw new CommandException(Status.USE, "The level is 1 to " + PracticeMaker.LEVELS + ", not " + level + ".");
        }
        if (count != null && (count < 1 || count > PracticeSet.MOST || level == null)) {
            throw new CommandException(Status.USE, "A class set has 1 to " + PracticeSet.MOST + " disks and needs --level.");
        }
        for (String fault : faults) {
            if (!PracticeMaker.kinds().containsKey(fault)) {
                throw new CommandException(Status.USE, "There is no kind of fault \"" + fault + "\". \"sectorglass practice kinds\" lists them.");
            }
        }
        PracticeSet set = new PracticeSet(to, exam, locale);
        try {
            if (count != null) {
                set.many(count, seed, level, quiet || System.console() == null ? Progress.NONE : new ConsoleProgress(err));
                say(count + " practice disks in " + to);
            } else {
                DiskKey disk = faults.isEmpty() ? set.single(seed, level) : set.single(seed, faults);
                say("Practice disk " + disk.code() + " in " + to.resolve("disk"));
            }
            say("Key for the teacher: " + set.key(seed));
        } catch (IOException e) {
            throw new CommandException(Status.OUTPUT, "The practice disk could not be written into " + to + ": " + e.getMessage() + ".");
        } catch (IllegalArgumentException e) {
            throw new CommandException(Status.USE, "These kinds of faults fit no disk together from this seed; try another seed, or fewer kinds.");
        }
        return Status.DONE;
    }

    private void say(String line) {
        if (!quiet) {
            out.println(line);
        }
    }
}
