package sectorglass.cli;

import java.io.PrintStream;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.function.BiFunction;

/** The commands by name. Only the one that is asked for is made: start-up time counts. */
final class CommandTable {
    private static final Map<String, BiFunction<PrintStream, PrintStream, Callable<Integer>>> COMMANDS = new LinkedHashMap<>();

    static {
        COMMANDS.put("layout", LayoutCommand::new);
        COMMANDS.put("verify", VerifyCommand::new);
        COMMANDS.put("explain", ExplainCommand::new);
        COMMANDS.put("formats", FormatsCommand::new);
        COMMANDS.put("files", FilesCommand::new);
        COMMANDS.put("extract", ExtractCommand::new);
        COMMANDS.put("plan", PlanCommand::new);
        COMMANDS.put("compare", CompareCommand::new);
        COMMANDS.put("find", FindCommand::new);
        COMMANDS.put("readback", ReadBackCommand::new);
        COMMANDS.put("job", JobCommand::new);
        COMMANDS.put("report", ReportCommand::new);
        COMMANDS.put("marks", MarksCommand::new);
        COMMANDS.put("search", SearchCommand::new);
        COMMANDS.put("propose", ProposeCommand::new);
        COMMANDS.put("demo", DemoCommand::new);
        COMMANDS.put("practice", PracticeCommand::new);
        COMMANDS.put("providers", ProvidersCommand::new);
    }

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
