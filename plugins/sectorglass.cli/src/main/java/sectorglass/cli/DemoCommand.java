package sectorglass.cli;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import sectorglass.make.Demo;
import sectorglass.make.PlantedFault;

/** Writes the built-in demo disk. */
@Command(description = {"Writes the built-in demo disk: the archive of an invented photographer, with faults planted on purpose. Every name on it is invented.",
    "Older demo files of the same names are replaced."})
final class DemoCommand implements Callable<Integer> {

    @Option(names = "--to", required = true, paramLabel = "DIR", description = "The folder to write into; made where it is missing.")
    private Path to;

    @Option(names = "--variant", paramLabel = "NAME", description = "gpt, mbr, gpt-sound, mbr-sound, partly-read, wiped; all of them where none is given.")
    private List<String> variants = List.of();

    @Option(names = "--quiet", description = "Nothing but the result.")
    private boolean quiet;

    @Option(names = {"-h", "--help"}, usageHelp = true, description = "Shows this help.")
    private boolean help;

    private final PrintStream out;

    DemoCommand(PrintStream out, PrintStream err) {
        this.out = out;
    }

    @Override
    public Integer call() throws CommandException {
        List<Demo.Variant> wanted = variants.isEmpty() ? List.of(Demo.Variant.values()) : variants.stream().map(DemoCommand::variant).toList();
        if (wanted.stream().anyMatch(java.util.Objects::isNull)) {
            throw new CommandException(Status.USE, "The variants are " + Arrays.stream(Demo.Variant.values()).map(DemoCommand::name)
                    .collect(Collectors.joining(", ")) + ".");
        }
        for (Demo.Variant variant : wanted) {
            try {
                Demo.Written written = Demo.write(to, variant);
                if (!quiet) {
                    print(written);
                }
            } catch (IOException e) {
                throw new CommandException(Status.OUTPUT, "The demo disk could not be written into " + to + ": " + e.getMessage() + ".");
            }
        }
        return Status.DONE;
    }

    private void print(Demo.Written written) {
        out.println(written.image() + (written.readMap() == null ? "" : "  with read map " + written.readMap()));
        for (PlantedFault fault : written.faults()) {
            out.println("  fault at byte " + Numbers.address(fault.firstByte()) + ": " + fault.what() + " (" + fault.check() + (fault.full() ? ", --full" : "") + ")");
        }
    }

    private static String name(Demo.Variant variant) {
        return variant.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private static Demo.Variant variant(String name) {
        for (Demo.Variant variant : Demo.Variant.values()) {
            if (name(variant).equals(name)) {
                return variant;
            }
        }
        return null;
    }
}
