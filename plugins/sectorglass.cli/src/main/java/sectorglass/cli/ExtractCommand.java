package sectorglass.cli;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import sectorglass.disk.FileTree;
import sectorglass.image.OpenImage;
import sectorglass.recovery.Extraction;
import sectorglass.recovery.Manifest;

/** Copies files out of a volume. */
@Command(description = {"Copies files and folders out of a volume into a folder, with a manifest of SHA-256 and unread ranges.",
    "What was not read is filled and listed. A file that exists is never written over. Exit status 5 when something asked for is incomplete."})
final class ExtractCommand extends VolumeCommand {

    @Parameters(index = "1..*", arity = "1..*", paramLabel = "PATH", description = "Files and folders, relative to the volume's root, with /; \"/\" means all.")
    private List<String> paths;

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

    ExtractCommand(PrintStream out, PrintStream err) {
        super(out, err);
    }

    @Override
    int run(OpenImage opened) throws CommandException {
        if (fill < 0 || fill > 255) {
            throw new CommandException(Status.USE, "--fill " + fill + " is no byte: give 0 to 255.");
        }
        Chosen chosen = choose(opened);
        FileTree tree = chosen.files().tree(progress());
        List<Integer> wanted = new ArrayList<>();
        int absent = 0;
        for (String path : paths) {
            OptionalInt entry = tree.find(path);
            if (entry.isPresent()) {
                wanted.add(entry.getAsInt());
            } else {
                absent++;
                err.println("Nothing that was read is called \"" + path + "\" on volume " + chosen.number() + "."
                        + (tree.unreadMetadata().isEmpty() ? "" : " Part of the metadata was not read, so it may exist all the same."));
            }
        }
        try {
            Extracted result = extract(chosen, wanted);
            if (!quiet) {
                out.println(Numbers.grouped(result.files) + " files, " + Numbers.size(result.bytes) + " written to " + to + "; "
                        + Numbers.grouped(result.incomplete) + " incomplete; manifest " + result.manifest);
            }
            return result.incomplete + absent > 0 ? Status.INCOMPLETE : Status.DONE;
        } catch (FileAlreadyExistsException e) {
            throw new CommandException(Status.OUTPUT, e.getMessage() + " exists already and is never written over. Give another folder.");
        } catch (IOException e) {
            throw new CommandException(Status.OUTPUT, "Extraction stopped: " + e.getMessage()
                    + ". Files finished before are whole and listed in the manifest. Free the cause and run again into another folder.");
        }
    }

    /** What was done. */
    private static final class Extracted {
        private long files;
        private long bytes;
        private long incomplete;
        private Path manifest;
    }

    private Extracted extract(Chosen chosen, List<Integer> wanted) throws IOException {
        Files.createDirectories(to);
        Extracted result = new Extracted();
        result.manifest = to.resolve("manifest.csv");
        Extraction extraction = new Extraction(chosen.files(), to, new Extraction.Options((byte) fill, deleted, streams, ZoneId.of(zone)), progress());
        try (BufferedWriter lines = Files.newBufferedWriter(result.manifest, StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW)) {
            Manifest manifest = new Manifest(lines, to.toRealPath());
            for (int entry : wanted) {
                extraction.extract(entry, written -> {
                    manifest.add(written);
                    result.files += written.file() == null ? 0 : 1;
                    result.bytes += written.file() == null ? 0 : written.bytes();
                    result.incomplete += written.complete() ? 0 : 1;
                });
            }
        }
        return result;
    }
}
