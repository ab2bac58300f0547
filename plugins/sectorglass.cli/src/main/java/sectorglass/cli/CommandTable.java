package sectorglass.cli;

import java.io.PrintStream;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.function.BiFunction;

/** The commands by name. Only the one that is asked for is made: start-up time counts. */
final class CommandTable {
    private static final Map<String, BiFunction<PrintStream, PrintStream, Callable<Integer>>> COMMANDS = new TreeMap<>(Map.of(
            "layout", LayoutCommand::new,
            "verify", VerifyCommand::new,
            "explain", ExplainCommand::new,
            "formats", FormatsCommand::new,
            "compare", CompareCommand::new,
            "find", FindCommand::new,
            "files", FilesCommand::new,
            "extract", ExtractCommand::new,
            "plan", PlanCommand::new,
            "demo", DemoCommand::new));

    private CommandTable() {
    }

    /** A command ready to be parsed, or null where there is none of that name. */
    static Callable<Integer> create(String name, PrintStream out, PrintStream err) {
        var maker = COMMANDS.get(name);
        return maker == null ? null : maker.apply(out, err);
    }

    static Iterable<String> names() {
        return COMMANDS.keySet();
    }
}
