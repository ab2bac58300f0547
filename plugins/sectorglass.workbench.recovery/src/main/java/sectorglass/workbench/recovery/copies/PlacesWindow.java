package sectorglass.workbench.recovery.copies;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

import org.eclipse.swt.widgets.Shell;

import sectorglass.image.SafeText;
import sectorglass.recovery.places.DumpFolders;
import sectorglass.recovery.places.PlaceComparison;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.recovery.LineWindow;
import sectorglass.workbench.recovery.Words;

/** What the comparison of places within an image, or of two folders of dumps, found. */
final class PlacesWindow {

    private PlacesWindow() {
    }

    /** Places of the open image; a line leads to the first byte that differs, else to the first place. */
    static void places(Shell parent, List<PlaceComparison> found, int sectorSize) {
        List<LineWindow.Line> lines = new ArrayList<>();
        long differ = found.stream().filter(p -> p.different() > 0).count();
        for (PlaceComparison one : found.stream().sorted(Comparator.comparing(p -> p.different() == 0)).toList()) {
            lines.add(new LineWindow.Line(one.firstDifference().orElse(one.pair().one().start()) / sectorSize,
                    Numbers.grouped(one.pair().one().start() / sectorSize), Numbers.grouped(one.pair().other().start() / sectorSize),
                    Numbers.grouped(one.different()), Numbers.grouped(one.unknown()),
                    (one.pair().volume() == null ? "" : Words.of("places.volume", one.pair().volume()) + ": ") + SafeText.of(one.pair().name()),
                    result(one)));
        }
        new LineWindow(parent, Words.of("places.title"), Words.of(found.isEmpty() ? "places.none" : "places.sum", found.size(), differ),
                new String[] {Words.of("places.one"), Words.of("places.other"), Words.of("places.different"), Words.of("places.unknown"),
                    Words.of("places.what"), Words.of("places.result")}, new int[] {95, 95, 80, 90, 290, 420}, 4, lines).open();
    }

    private static String result(PlaceComparison one) {
        if (one.different() == 0) {
            return Words.of(one.equal() == 0 ? "places.unread" : one.unknown() > 0 ? "places.partly" : "places.same");
        }
        String passes = Words.of("places.passes." + one.passes().name().toLowerCase(java.util.Locale.ROOT));
        return one.fields().isEmpty() ? passes : SafeText.of(String.join(", ", one.fields())) + " \u2013 " + passes;
    }

    /** Two folders of numbered dumps; only what is not the same. */
    static void dumps(Shell parent, Path first, Path second, List<DumpFolders.Dump> dumps) {
        List<LineWindow.Line> lines = new ArrayList<>();
        for (DumpFolders.Dump dump : dumps) {
            if (dump.answer() != DumpFolders.Answer.SAME) {
                lines.add(new LineWindow.Line(-1, SafeText.of(dump.key()), dump.different() == 0 ? "" : Numbers.grouped(dump.different()),
                        dump.firstDifference() < 0 ? "" : Numbers.grouped(dump.firstDifference()),
                        Words.of("dumps." + dump.answer().name().toLowerCase(java.util.Locale.ROOT))
                                + holds("dumps.first-holds", dump.oneHolds()) + holds("dumps.second-holds", dump.otherHolds())));
            }
        }
        new LineWindow(parent, Words.of("dumps.title"), Words.of("dumps.sum", SafeText.of(first.toString()), SafeText.of(second.toString()),
                dumps.size(), dumps.size() - lines.size()), new String[] {Words.of("dumps.key"), Words.of("places.different"), Words.of("dumps.first"),
                    Words.of("places.result")}, new int[] {110, 90, 110, 560}, 3, lines).open();
    }

    private static String holds(String key, int only) {
        return only < 0 ? "" : "; " + Words.of(key, String.format("%02X", only));
    }
}
