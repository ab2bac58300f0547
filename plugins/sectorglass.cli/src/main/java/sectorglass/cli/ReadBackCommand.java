package sectorglass.cli;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import sectorglass.image.Progress;
import sectorglass.image.SafeText;
import sectorglass.recovery.ManifestFile;
import sectorglass.recovery.ReadBack;
import sectorglass.report.JsonOut;

/** Reads a return medium back against the manifest. */
@Command(description = {"Reads a folder on the return medium back and compares every file with the manifest of the extraction: length and SHA-256.",
    "Exit status 0 when everything is as written, 1 when something is missing, differs or cannot be read."})
final class ReadBackCommand implements Callable<Integer> {
    private static final int SHOWN = 50;

    @Parameters(index = "0", paramLabel = "DIR", description = "The folder on the medium that holds the files.")
    private Path folder;

    @Option(names = "--manifest", paramLabel = "FILE", description = "The manifest; otherwise manifest.csv in the folder.")
    private Path manifest;

    @Option(names = "--json", description = "JSON instead of text.")
    private boolean json;

    @Option(names = "--quiet", description = "Nothing but the result.")
    private boolean quiet;

    @Option(names = {"-h", "--help"}, usageHelp = true, description = "Shows this help.")
    private boolean help;

    private final PrintStream out;
    private final PrintStream err;

    ReadBackCommand(PrintStream out, PrintStream err) {
        this.out = out;
        this.err = err;
    }

    @Override
    public Integer call() throws CommandException {
        Path file = manifest == null ? folder.resolve("manifest.csv") : manifest;
        if (!Files.isDirectory(folder)) {
            throw new CommandException(Status.USE, folder + " is no folder.");
        }
        if (!Files.isReadable(file)) {
            throw new CommandException(Status.USE, "There is no manifest " + file + ". Give it with --manifest.");
        }
        try {
            Progress progress = quiet || json || System.console() == null ? Progress.NONE : new ConsoleProgress(err);
            ReadBack result = ReadBack.of(ManifestFile.load(file), folder, progress);
            print(result);
            return result.good() ? Status.DONE : Status.FINDINGS;
        } catch (IOException e) {
            throw new CommandException(Status.OUTPUT, "The medium could not be read back: " + e.getMessage());
        }
    }

    private void print(ReadBack result) {
        if (json) {
            try (JsonOut to = new JsonOut(out)) {
                to.object(() -> {
                    to.field("files", result.files()).field("same", result.same()).field("bytes", result.bytes()).field("good", result.good());
                    to.array("missing", result.missing(), to::value).array("different", result.different(), to::value)
                            .array("unreadable", result.unreadable(), to::value).array("more", result.more(), to::value);
                }).line();
            }
            return;
        }
        out.println(Numbers.grouped(result.same()) + " of " + Numbers.grouped(result.files()) + " files are as written, " + Numbers.size(result.bytes()));
        list("missing", result.missing());
        list("different", result.different());
        list("unreadable", result.unreadable());
        list("not in the manifest", result.more());
    }

    private void list(String what, List<String> files) {
        if (!files.isEmpty()) {
            out.println("! " + what + ": " + Numbers.grouped(files.size()));
            files.stream().limit(SHOWN).forEach(file -> out.println("    " + SafeText.of(file)));
        }
    }
}
