package sectorglass.cli;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.util.List;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import sectorglass.image.OpenImage;
import sectorglass.image.SafeText;
import sectorglass.practice.copy.CopyResult;
import sectorglass.practice.copy.StructureCopier;
import sectorglass.report.JsonOut;
import sectorglass.verify.Finding;

/** Copies the structures of an image for a lesson, without the person in them. */
@Command(description = {"Copies only the structures of an image, names and resident content replaced by invented ones: maps, boot sectors, tables, records, folders.",
    "Everything else is unread in the copy. Checksums are made anew, so that those which held hold again and those which did not still do not."})
final class StructureCopyCommand extends ImageCommand {

    @Option(names = "--to", required = true, paramLabel = "DIR", description = "The folder for structures.img and structures.csv, its read map; neither may exist.")
    private Path to;

    @Option(names = "--numbers", description = "Replaces serial numbers and identities, too (not the UUID of ext).")
    private boolean numbers;

    @Option(names = "--seed", paramLabel = "N", description = "For the same copy again; otherwise drawn, and forgotten, as it should be for a customer's image.")
    private Long seed;

    StructureCopyCommand(PrintStream out, PrintStream err) {
        super(out, err);
    }

    @Override
    int run(OpenImage opened) throws Exception {
        Path image = to.resolve("structures.img");
        CopyResult result;
        try {
            Files.createDirectories(to);
            result = new StructureCopier(opened, numbers, book()).copy(seed == null ? new SecureRandom().nextLong() : seed, image, to.resolve("structures.csv"),
                    progress());
        } catch (FileAlreadyExistsException e) {
            throw new CommandException(Status.OUTPUT, e.getMessage() + " exists and is not written over.");
        } catch (IOException e) {
            throw new CommandException(Status.OUTPUT, "The copy could not be written into " + to + ": " + e.getMessage() + ".");
        }
        if (json) {
            try (JsonOut o = new JsonOut(out)) {
                o.object(() -> {
                    o.field("image", image).field("sectors", result.sectors().count());
                    o.array("volumes", result.volumes(), o::value).array("leftOut", result.left(), o::value);
                    for (String kind : List.of("same", "gone", "added")) {
                        o.array(kind, findings(result, kind), f -> o.object(() -> o.field("check", ((Finding) f).check())
                                .field("firstByte", ((Finding) f).where().start())));
                    }
                }).line();
            }
        } else {
            out.println(image + ": " + Numbers.grouped(result.sectors().count()) + " sectors of structures, the rest unread; volumes " + result.volumes());
            result.left().forEach(line -> out.println(SafeText.of(line)));
            out.println("Findings as in the original: " + result.same().size());
            list("Not to be seen in the copy, since they need what stays out", result.gone());
            list("Only in the copy", result.added());
        }
        return Status.DONE;
    }

    private static List<Finding> findings(CopyResult result, String kind) {
        return switch (kind) {
            case "same" -> result.same();
            case "gone" -> result.gone();
            default -> result.added();
        };
    }

    private void list(String title, List<Finding> findings) {
        if (!findings.isEmpty()) {
            out.println(title + ":");
            findings.forEach(f -> out.println("  " + f.check() + " at image byte " + Numbers.address(f.where().start())));
        }
    }
}
