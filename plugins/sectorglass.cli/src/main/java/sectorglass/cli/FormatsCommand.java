package sectorglass.cli;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import sectorglass.decode.FormatCatalogue;
import sectorglass.decode.FormatInfo;
import sectorglass.decode.SpecCheck;
import sectorglass.decode.SpecProblem;
import sectorglass.report.JsonOut;
import sectorglass.report.card.ReferenceCard;

/** Lists the known formats, or checks a spec. */
@Command(description = {"Lists the known formats.", "\"formats check FILE.ksy\" names the mistakes in a spec by line and column; exit status 1 where there are any.",
    "\"formats --card ID --to DIR\" writes a reference card made from the spec."})
final class FormatsCommand implements Callable<Integer> {

    @Parameters(arity = "0..2", paramLabel = "check FILE.ksy", description = "Checks a spec instead of listing.")
    private List<String> words = List.of();

    @Option(names = "--json", description = "JSON instead of text.")
    private boolean json;

    @Option(names = "--card", paramLabel = "ID", description = "Writes the reference card of this format, ID.html and ID.pdf; may be given several times.")
    private List<String> cards = List.of();

    @Option(names = "--all", description = "Writes the reference cards of all formats.")
    private boolean all;

    @Option(names = "--to", paramLabel = "DIR", description = "Of --card and --all: the folder to write into; made where it is missing. No file is written over.")
    private Path to;

    @Option(names = "--language", paramLabel = "CODE", description = "Of --card and --all: language of the words around the fields, en (default) or de.")
    private String language = "en";

    @Option(names = {"-h", "--help"}, usageHelp = true, description = "Shows this help.")
    private boolean help;

    private final PrintStream out;

    FormatsCommand(PrintStream out, PrintStream err) {
        this.out = out;
    }

    @Override
    public Integer call() throws Exception {
        if (all || !cards.isEmpty()) {
            return cards();
        }
        if (words.isEmpty()) {
            return list();
        }
        if (!words.get(0).equals("check") || words.size() != 2) {
            throw new CommandException(Status.USE, "Give nothing, or \"check\" and one spec file.");
        }
        return check(Path.of(words.get(1)));
    }

    private int cards() throws Exception {
        if (to == null) {
            throw new CommandException(Status.USE, "Reference cards need --to with a folder.");
        }
        FormatCatalogue catalogue = FormatCatalogue.ofProviders();
        List<String> wanted = all ? catalogue.formats().stream().map(FormatInfo::id).toList() : cards;
        for (String id : wanted) {
            if (catalogue.find(id).isEmpty()) {
                throw new CommandException(Status.USE, "There is no format \"" + id + "\". \"sectorglass formats\" lists them.");
            }
        }
        try {
            Files.createDirectories(to);
            for (String id : wanted) {
                new ReferenceCard(catalogue.outline(id), Locale.forLanguageTag(language)).write(to);
            }
        } catch (FileAlreadyExistsException e) {
            throw new CommandException(Status.OUTPUT, e.getMessage() + " exists and is not written over.");
        } catch (IOException e) {
            throw new CommandException(Status.OUTPUT, "The reference cards could not be written into " + to + ": " + e.getMessage() + ".");
        }
        out.println(wanted.size() + " reference cards in " + to);
        return Status.DONE;
    }

    private int list() {
        List<FormatInfo> formats = FormatCatalogue.ofProviders().formats();
        if (json) {
            try (JsonOut to = new JsonOut(out)) {
                to.object(() -> to.array("formats", formats, f -> {
                    FormatInfo info = (FormatInfo) f;
                    to.object(() -> {
                        to.field("id", info.id()).field("title", info.title()).field("bundle", info.bundle());
                        to.array("kinds", info.kinds(), to::value);
                    });
                })).line();
            }
        } else {
            Table table = new Table("lll");
            formats.forEach(f -> table.row(f.id(), f.title(), f.bundle()));
            table.print(out, "");
        }
        return Status.DONE;
    }

    private int check(Path file) throws Exception {
        if (!Files.isRegularFile(file)) {
            throw new CommandException(Status.USE, "There is no file " + file + ".");
        }
        List<SpecProblem> problems = SpecCheck.check(file);
        if (json) {
            try (JsonOut to = new JsonOut(out)) {
                to.object(() -> to.array("problems", problems, p -> {
                    SpecProblem problem = (SpecProblem) p;
                    to.object(() -> to.field("file", problem.file()).field("line", problem.line()).field("column", problem.column())
                            .field("sentence", problem.sentence()));
                })).line();
            }
        } else {
            problems.forEach(out::println);
            if (problems.isEmpty()) {
                out.println(file + ": no mistakes found");
            }
        }
        return problems.isEmpty() ? Status.DONE : Status.FINDINGS;
    }
}
