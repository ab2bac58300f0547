package sectorglass.cli;

import java.io.PrintStream;
import java.util.stream.Collectors;

import sectorglass.image.PartOrder;
import sectorglass.image.SafeText;

/** The parts of a chunk set as text, and what structures say about their order. */
final class PartsText {
    private static final int MOST = 40;
    private final PrintStream out;

    PartsText(PrintStream out) {
        this.out = out;
    }

    void print(PartOrder order) {
        out.println();
        out.println("Parts of the image");
        Table table = new Table("rlrrl").row("part", "file", "first byte", "bytes", "structures in it");
        for (int i = 0; i < Math.min(MOST, order.parts().size()); i++) {
            PartOrder.Place place = order.parts().get(i);
            table.row(i + 1, place.part().missing() ? "missing: counts as unread" : SafeText.of(place.part().file().getFileName().toString()),
                    Numbers.grouped(place.part().start()), Numbers.grouped(place.part().bytes()), words(place)
                            + (i < order.joined().size() && order.joined().get(i) ? "; one goes on in the next part" : ""));
        }
        table.print(out, "  ");
        if (order.parts().size() > MOST) {
            out.println("  … and " + (order.parts().size() - MOST) + " more parts; --json gives all");
        }
        if (order.wrong()) {
            out.println("  ! The structures speak for another order: parts " + order.proposed().stream().map(i -> Integer.toString(i + 1))
                    .collect(Collectors.joining(", ")) + ". To open them so, write that order with --parts-to FILE and give the file with --part-list.");
        }
    }

    private static String words(PartOrder.Place place) {
        if (place.agreeing() == 0 && place.elsewhere() == 0) {
            return place.grid() == null ? "none that knows its place" : grid(place);
        }
        return (place.grid() == null ? "" : grid(place) + "; ") + place.agreeing() + " in place" + (place.elsewhere() == 0 ? "" : ", " + place.elsewhere() + " belong "
                + Numbers.grouped(Math.abs(place.shift())) + " bytes " + (place.shift() > 0 ? "later" : "earlier") + " ("
                + SafeText.of(String.valueOf(place.example())) + ")");
    }

    /** Parts that cut sectors: where structures begin in them tells which places they can have. */
    private static String grid(PartOrder.Place place) {
        return place.grid().count() + " (" + SafeText.of(place.grid().structure()) + ") begin " + (!place.onGrid() ? "off the sectors: the part belongs elsewhere"
                : place.fits() == 1 ? "with sectors, as in no other place" : "with sectors, as in " + place.fits() + " places");
    }
}
