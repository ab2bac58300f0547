package sectorglass.cli;

import java.io.PrintStream;
import java.util.List;
import java.util.concurrent.Callable;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import sectorglass.decode.FormatFolder;
import sectorglass.disk.CapacityRule;
import sectorglass.disk.Finder;
import sectorglass.disk.MapProvider;
import sectorglass.disk.VolumeProvider;
import sectorglass.image.Providers;
import sectorglass.image.SectorSizeClue;
import sectorglass.practice.lesson.LessonPack;
import sectorglass.report.JsonOut;
import sectorglass.verify.RuleSet;

/** Lists the parts that bundles provide: for support, and to hold the command line and the workbench equal. */
@Command(description = "Lists the parts that bundles provide, by type.")
final class ProvidersCommand implements Callable<Integer> {

    @Parameters(arity = "0..*", paramLabel = "TYPE", description = "Class names of types; the usual ones where none is given.")
    private List<String> types = List.of();

    @Option(names = "--json", description = "JSON instead of text.")
    private boolean json;

    @Option(names = {"-h", "--help"}, usageHelp = true, description = "Shows this help.")
    private boolean help;

    private final PrintStream out;

    ProvidersCommand(PrintStream out, PrintStream err) {
        this.out = out;
    }

    @Override
    public Integer call() throws CommandException {
        List<Class<?>> wanted = types.isEmpty()
                ? List.of(SectorSizeClue.class, FormatFolder.class, RuleSet.class, MapProvider.class, VolumeProvider.class, Finder.class,
                        CapacityRule.class, LessonPack.class)
                : new java.util.ArrayList<>();
        for (String type : types) {
            try {
                wanted.add(Class.forName(type));
            } catch (ClassNotFoundException e) {
                throw new CommandException(Status.USE, "There is no type " + type + " here.");
            }
        }
        if (json) {
            try (JsonOut to = new JsonOut(out)) {
                to.object(() -> wanted.forEach(type -> to.array(type.getName(), names(type), to::value))).line();
            }
        } else {
            wanted.forEach(type -> {
                out.println(type.getName());
                names(type).forEach(name -> out.println("  " + name));
            });
        }
        return Status.DONE;
    }

    private static List<String> names(Class<?> type) {
        return Providers.all(type).stream().map(p -> p.getClass().getName()).toList();
    }
}
