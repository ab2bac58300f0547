package sectorglass.cli;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.Callable;

import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.Parameters;
import sectorglass.disk.Disk;
import sectorglass.disk.MapProvider;
import sectorglass.disk.Survey;
import sectorglass.disk.VolumeProvider;
import sectorglass.image.OpenImage;
import sectorglass.image.Progress;
import sectorglass.image.Providers;
import sectorglass.image.Texts;
import sectorglass.verify.RuleBook;

/** What all commands that open an image share. */
abstract class ImageCommand implements Callable<Integer> {

    private static final String IMAGE = "A raw image, or the first part of a chunk set.";

    private final Said asJson = Said.flag("--json", "JSON instead of text.");
    private final Said onlyResult = Said.flag("--quiet", "Nothing but the result.");
    private final Said words = Said.value("--language", String.class, "CODE", "Language of texts: en (default) or de.");

    final SourceOptions source = new SourceOptions();

    @Parameters(index = "0", paramLabel = "IMAGE", description = IMAGE)
    Path image;

    boolean json;
    boolean quiet;
    private PositionalParamSpec file;

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

    /** Makes what all these commands share part of this one. */
    private void addTo(CommandSpec command) {
        source.addTo(command);
        asJson.addTo(command);
        onlyResult.addTo(command);
        words.addTo(command);
        command.addOption(OptionSpec.builder("-h", "--help").type(boolean.class).usageHelp(true).description("Shows this help.").build());
    }

    /** The command with its options: those of its annotations, and the shared ones. */
    CommandSpec spec() {
        CommandSpec command = CommandSpec.forAnnotatedObject(this);
        addTo(command);
        return command;
    }

    /** A command without annotations, with the shared options. */
    final CommandSpec plain(String description) {
        CommandSpec command = CommandSpec.wrapWithoutInspection(this);
        command.usageMessage().description(description);
        file = PositionalParamSpec.builder().index("0").type(Path.class).paramLabel("IMAGE").description(IMAGE).build();
        command.addPositional(file);
        addTo(command);
        return command;
    }

    @Override
    public final Integer call() throws Exception {
        image = file == null ? image : file.getValue();
        json = asJson.given();
        quiet = onlyResult.given();
        try (OpenImage opened = source.open(image, locale(), progress())) {
            if (!quiet && !json) {
                opened.remarks().forEach(remark -> err.println(texts().of("note", remark)));
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
        return words.text() == null ? Locale.ENGLISH : Locale.forLanguageTag(words.text());
    }

    /** What the commands print, in the language that was asked for. */
    final Texts texts() {
        return new Texts(ImageCommand.class, locale());
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
