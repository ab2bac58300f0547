package sectorglass.cli;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Path;
import java.util.List;

import sectorglass.image.Progress;
import sectorglass.image.SafeText;
import sectorglass.recovery.places.DumpFolders;
import sectorglass.report.JsonOut;

/** Prints how two folders of numbered dumps agree. */
final class DumpsText {
    private final PrintStream out;
    private final boolean json;

    DumpsText(PrintStream out, boolean json) {
        this.out = out;
        this.json = json;
    }

    void print(Path first, Path second, Progress progress) throws IOException, CommandException {
        List<DumpFolders.Dump> dumps;
        try {
            dumps = DumpFolders.compare(first, second, progress);
        } catch (IOException e) {
            throw new CommandException(Status.IMAGE, "The dumps cannot be compared: " + SafeText.of(String.valueOf(e.getMessage())) + ".");
        }
        if (json) {
            json(dumps);
            return;
        }
        Table table = new Table("lll").row("dump", "result", "");
        for (DumpFolders.Dump dump : dumps) {
            if (dump.answer() != DumpFolders.Answer.SAME) {
                table.row(SafeText.of(dump.key()), words(dump), holds("first", dump.oneHolds()) + holds("second", dump.otherHolds()));
            }
        }
        long same = dumps.stream().filter(d -> d.answer() == DumpFolders.Answer.SAME).count();
        out.println(Numbers.grouped(dumps.size()) + " dumps, " + Numbers.grouped(same) + " the same in both folders"
                + (same == dumps.size() ? "." : "; the others:"));
        if (same < dumps.size()) {
            table.print(out, "  ");
            out.println("Nothing here decides which of two is right: no check of their own is known for them.");
        }
    }

    private static String words(DumpFolders.Dump dump) {
        String at = dump.firstDifference() < 0 ? "" : ", " + Numbers.grouped(dump.different()) + " bytes differ, the first at byte "
                + Numbers.grouped(dump.firstDifference());
        return switch (dump.answer()) {
            case SAME -> "the same";
            case DIFFERENT -> "as long" + at;
            case LENGTHS -> "of other length" + (at.isEmpty() ? "; the shorter one is the beginning of the other" : at);
            case ONLY_FIRST -> "only in the first folder";
            case ONLY_SECOND -> "only in the second folder";
        };
    }

    private static String holds(String which, int only) {
        return only < 0 ? "" : "the " + which + " holds " + hex(only) + " only  ";
    }

    private static String hex(int only) {
        return only < 0 ? null : String.format("%02x", only);
    }

    private void json(List<DumpFolders.Dump> dumps) throws IOException {
        try (JsonOut to = new JsonOut(out)) {
            to.object(() -> to.array("dumps", dumps, any -> {
                DumpFolders.Dump dump = (DumpFolders.Dump) any;
                to.object(() -> to.field("key", dump.key()).field("one", dump.one()).field("other", dump.other()).field("answer", dump.answer().word())
                        .field("different", dump.different()).field("firstDifference", dump.firstDifference() < 0 ? null : dump.firstDifference())
                        .field("oneHolds", hex(dump.oneHolds())).field("otherHolds", hex(dump.otherHolds())));
            })).line();
        }
    }
}
