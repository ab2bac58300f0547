package sectorglass.cli;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.Callable;

import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import sectorglass.disk.Disk;
import sectorglass.disk.Survey;
import sectorglass.image.ImageException;
import sectorglass.image.Images;
import sectorglass.image.OpenImage;
import sectorglass.image.OpenOptions;
import sectorglass.image.Progress;
import sectorglass.verify.RuleBook;

/** What all commands that open an image share. */
abstract class ImageCommand implements Callable<Integer> {

    @Parameters(index = "0", paramLabel = "IMAGE", description = "A raw image, or the first part of a chunk set.")
    Path image;

    @Option(names = "--read-map", paramLabel = "FILE", description = "Which sectors were read (CSV: first_lba,sectors,state[,head]).")
    Path readMap;

    @Option(names = "--sector-size", paramLabel = "N", description = "512, 1024, 2048 or 4096; otherwise found from structures.")
    int sectorSize;

    @Option(names = "--device-anyway", description = "Opens a block device. A failing drive is imaged first: every read may be its last.")
    boolean deviceAnyway;

    @Option(names = "--json", description = "JSON instead of text.")
    boolean json;

    @Option(names = "--quiet", description = "Nothing but the result.")
    boolean quiet;

    @Option(names = "--language", paramLabel = "CODE", description = "Language of texts: en (default) or de.")
    String language = "en";

    @Option(names = {"-h", "--help"}, usageHelp = true, description = "Shows this help.")
    boolean help;

    final PrintStream out;
    final PrintStream err;

    ImageCommand(PrintStream out, PrintStream err) {
        this.out = out;
        this.err = err;
    }

    @Override
    public final Integer call() throws Exception {
        if (sectorSize != 0 && Integer.bitCount(sectorSize) != 1 || sectorSize < 0 || sectorSize > 4096 || sectorSize > 0 && sectorSize < 512) {
            throw new CommandException(Status.USE, "--sector-size " + sectorSize + " is not 512, 1024, 2048 or 4096.");
        }
        try (OpenImage opened = open()) {
            if (!quiet && !json) {
                opened.remarks().forEach(remark -> err.println("Note: " + remark));
            }
            return run(opened);
        }
    }

    /** Does the work of the command on the opened image. */
    abstract int run(OpenImage opened) throws Exception;

    private OpenImage open() throws ImageException {
        OpenOptions options = OpenOptions.DEFAULT.withSectorSize(sectorSize).withReadMap(readMap).withDeviceAnyway(deviceAnyway)
                .withLocale(locale());
        return Images.open(image, options);
    }

    final Locale locale() {
        return Locale.forLanguageTag(language);
    }

    final Progress progress() {
        return quiet || json || System.console() == null ? Progress.NONE : new ConsoleProgress(err);
    }

    final RuleBook book() {
        return RuleBook.ofProviders(locale());
    }

    final Disk survey(OpenImage opened) {
        return Survey.of(opened, progress());
    }
}
