package sectorglass.cli;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.Callable;

import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import sectorglass.disk.Disk;
import sectorglass.disk.MapProvider;
import sectorglass.disk.Survey;
import sectorglass.disk.VolumeProvider;
import sectorglass.image.OpenImage;
import sectorglass.image.Progress;
import sectorglass.image.Providers;
import sectorglass.verify.RuleBook;

/** What all commands that open an image share. */
abstract class ImageCommand implements Callable<Integer> {

    @Parameters(index = "0", paramLabel = "IMAGE", description = "A raw image, or the first part of a chunk set.")
    Path image;

    @Mixin
    SourceOptions source = new SourceOptions();

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

    /** Starts what will be needed whatever the options say, while they are being read. */
    void prepare() {
        Ahead.run(() -> {
            Providers.all(MapProvider.class);
            Providers.all(VolumeProvider.class);
        });
    }

    @Override
    public final Integer call() throws Exception {
        try (OpenImage opened = source.open(image, locale(), progress())) {
            if (!quiet && !json) {
                opened.remarks().forEach(remark -> err.println("Note: " + remark));
            }
            int status = run(opened);
            source.log(getClass().getSimpleName().replace("Command", "").toLowerCase(Locale.ROOT) + " " + image + ": status " + status);
            return status;
        } finally {
            source.close();
        }
    }

    /** Does the work of the command on the opened image. */
    abstract int run(OpenImage opened) throws Exception;

    final Locale locale() {
        return Locale.forLanguageTag(language);
    }

    final Progress progress() {
        return quiet || json || System.console() == null ? Progress.NONE : new ConsoleProgress(err);
    }

    final RuleBook book() {
        return RuleBook.ofProviders(locale());
    }

    final Disk survey(OpenImage opened) throws CommandException {
        return Survey.ofProviders().disk(opened, source.others(locale(), progress()), progress());
    }
}
