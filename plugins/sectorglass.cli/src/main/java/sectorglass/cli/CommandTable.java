package sectorglass.cli;

import java.io.PrintStream;
import java.util.List;
import java.util.concurrent.Callable;

/** The commands by name. Only the one that is asked for is made: start-up time counts. */
final class CommandTable {
    private static final List<String> NAMES = List.of("layout", "verify", "explain", "formats", "files", "extract", "plan", "compare", "find", "readback",
            "job", "report", "marks", "search", "propose", "structures", "demo", "practice", "providers");

    private CommandTable() {
    }

    /** A command ready to be parsed, or null where there is none of that name. A switch, since a table of constructors is linked as a whole. */
    static Callable<Integer> create(String name, PrintStream out, PrintStream err) {
        return switch (name) {
            case "layout" -> new LayoutCommand(out, err);
            case "verify" -> new VerifyCommand(out, err);
            case "explain" -> new ExplainCommand(out, err);
            case "formats" -> new FormatsCommand(out, err);
            case "files" -> new FilesCommand(out, err);
            case "extract" -> new ExtractCommand(out, err);
            case "plan" -> new PlanCommand(out, err);
            case "compare" -> new CompareCommand(out, err);
            case "find" -> new FindCommand(out, err);
            case "readback" -> new ReadBackCommand(out, err);
            case "job" -> new JobCommand(out, err);
            case "report" -> new ReportCommand(out, err);
            case "marks" -> new MarksCommand(out, err);
            case "search" -> new SearchCommand(out, err);
            case "propose" -> new ProposeCommand(out, err);
            case "structures" -> new StructureCopyCommand(out, err);
            case "demo" -> new DemoCommand(out, err);
            case "practice" -> new PracticeCommand(out, err);
            case "providers" -> new ProvidersCommand(out, err);
            default -> null;
        };
    }

    static List<String> names() {
        return NAMES;
    }
}
