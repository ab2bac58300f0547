package sectorglass.cli;

import java.io.IOException;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import sectorglass.disk.FileTree;
import sectorglass.image.OpenImage;
import sectorglass.recovery.ExtractionRun;
import sectorglass.recovery.outcome.VolumeFiles;
import sectorglass.recovery.outcome.Wish;

/** Copies files out of a volume. */
@Command(description = {"Copies files and folders out of a volume into a folder, with a manifest of SHA-256 and unread ranges.",
    "What was not read is filled and listed. A file that exists is never written over. Exit status 5 when something asked for is incomplete."})
final class ExtractCommand extends VolumeCommand {

    @Parameters(index = "1..*", arity = "0..*", paramLabel = "PATH", description = "Files and folders, relative to the volume's root, with /; \"/\" means all.")
    private List<String> paths = List.of();

    @Option(names = "--to", required = true, paramLabel = "DIR", description = "The folder to write into; made where it is missing.")
    private Path to;

    @Option(names = "--deleted", description = "Deleted files below a chosen folder come, too.")
    private boolean deleted;

    @Option(names = "--streams", description = "Named streams come, too, as files of their own.")
    private boolean streams;

    @Option(names = "--fill", paramLabel = "BYTE", description = "What stands for unread bytes, 0 to 255 (default 0).")
    private int fill;

    @Option(names = "--zone", paramLabel = "ZONE", description = "Time zone taken for times that have none of their own (default: this machine's).")
    private String zone = ZoneId.systemDefault().getId();

    @Option(names = "--resume", description = "Goes on where an earlier run into the same folder ended: files of its manifest are not written again.")
    private boolean resume;

    @Option(names = "--test", description = "Tests by content whether each file opens; the result goes into the manifest.")
    private boolean test;

    @Option(names = "--wanted", paramLabel = "FILE", description = "Files that the customer's wanted list means, besides the paths.")
    private Path wanted;

    ExtractCommand(PrintStream out, PrintStream err) {
        super(out, err);
    }

    @Override
    int run(OpenImage opened) throws CommandException {
        if (fill < 0 || fill > 255) {
            throw new CommandException(Status.USE, "--fill " + fill + " is no byte: give 0 to 255.");
        }
        VolumeFiles chosen = choose(opened);
        FileTree tree = chosen.files().tree(progress());
        List<Integer> wanted = new ArrayList<>();
        int absent = 0;
        for (String path : paths) {
            OptionalInt entry = tree.find(path);
            if (entry.isPresent()) {
                wanted.add(entry.getAsInt());
            } else {
                absent++;
                err.println(texts().of("extract.none", path, Integer.toString(chosen.number()))
                        + (tree.unreadMetadata().isEmpty() ? "" : " " + texts().of("extract.none.unread")));
            }
        }
        wanted.addAll(wishes(tree));
        if (paths.isEmpty() && this.wanted == null) {
            throw new CommandException(Status.USE, "Name the files and folders to extract, or a wanted list; \"/\" means all.");
        }
        try {
            ExtractionRun.Wish wish = new ExtractionRun.Wish(to, (byte) fill, deleted, streams, ZoneId.of(zone), test, resume);
            ExtractionRun result = ExtractionRun.run(chosen.files(), wanted, wish, progress(), so -> { });
            if (!quiet) {
                out.println(texts().of("extract.done", Numbers.grouped(result.files()), Numbers.size(result.bytes()), to, Numbers.grouped(result.incomplete()),
                        result.manifest()));
            }
            return result.incomplete() + absent > 0 ? Status.INCOMPLETE : Status.DONE;
        } catch (FileAlreadyExistsException e) {
            throw new CommandException(Status.OUTPUT, e.getMessage() + " exists already and is never written over. Give another folder.");
        } catch (IOException | UncheckedIOException e) {
            throw new CommandException(Status.OUTPUT, "Extraction stopped: " + e.getMessage()
                    + ". Files finished before are whole and listed in the manifest. Free the cause and run the same command again with --resume.");
        }
    }

    private List<Integer> wishes(FileTree tree) throws CommandException {
        List<Integer> all = new ArrayList<>();
        List<Wish.Finder> finders = WantedOption.load(wanted).wishes().stream().map(wish -> wish.finder(tree)).toList();
        if (!finders.isEmpty()) {
            tree.walk(tree.root(), (entry, depth) -> {
                if (!tree.folder(entry) && !tree.deleted(entry) && finders.stream().anyMatch(finder -> finder.means(entry))) {
                    all.add(entry);
                }
                return true;
            });
        }
        return all;
    }
}
