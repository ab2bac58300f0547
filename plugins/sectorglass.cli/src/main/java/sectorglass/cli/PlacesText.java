package sectorglass.cli;

import java.io.IOException;
import java.io.PrintStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import sectorglass.decode.FormatCatalogue;
import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.Survey;
import sectorglass.image.ByteRange;
import sectorglass.image.OpenImage;
import sectorglass.image.Progress;
import sectorglass.image.SafeText;
import sectorglass.recovery.places.Counterparts;
import sectorglass.recovery.places.PlaceComparison;
import sectorglass.recovery.places.PlacePair;
import sectorglass.report.JsonOut;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;

/** Prints how places of one image that should agree do agree. */
final class PlacesText {
    private static final int SHOWN = 5;

    private final PrintStream out;
    private final OpenImage image;
    private final boolean json;

    PlacesText(PrintStream out, OpenImage image, boolean json) {
        this.out = out;
        this.image = image;
        this.json = json;
    }

    /** All pairs that the disk has. */
    void print(Locale locale, Progress progress) throws IOException {
        Survey survey = Survey.ofProviders();
        Disk disk = survey.disk(image, progress);
        Findings findings = survey.verify(disk, Level.QUICK, RuleBook.ofProviders(locale), progress);
        print(Counterparts.pairs(disk), findings, progress);
    }

    /** Two places that were named. */
    void print(long one, long other, long length, Progress progress) throws IOException {
        Disk disk = Survey.ofProviders().disk(image, progress);
        Findings findings = Survey.ofProviders().verify(disk, Level.QUICK, RuleBook.ofProviders(Locale.ENGLISH), progress);
        print(List.of(PlacePair.byHand(one, other, length)), findings, progress);
    }

    private void print(List<PlacePair> pairs, Findings findings, Progress progress) throws IOException {
        FormatCatalogue catalogue = FormatCatalogue.ofProviders();
        List<PlaceComparison> all = new ArrayList<>();
        for (PlacePair pair : pairs) {
            all.add(PlaceComparison.of(image, pair, findings, catalogue, progress));
        }
        if (json) {
            json(all);
            return;
        }
        if (all.isEmpty()) {
            out.println("Nothing that was found in this image has a second copy in it.");
        }
        all.forEach(this::line);
    }

    private void line(PlaceComparison found) {
        PlacePair pair = found.pair();
        out.println((pair.name().isEmpty() ? "Two places" : SafeText.of(pair.name())) + (pair.volume() == null ? "" : ", volume " + pair.volume())
                + ": " + place(pair.one()) + " and " + place(pair.other()) + ", "
                + Numbers.grouped(Math.min(pair.one().length(), pair.other().length())) + " bytes");
        String unknown = found.unknown() == 0 ? "" : "; " + Numbers.grouped(found.unknown()) + " bytes were not read on both sides: nothing is known of them";
        if (found.different() == 0) {
            out.println("    " + (found.equal() == 0 ? "not compared" : "the same" + (unknown.isEmpty() ? "" : " where read")) + unknown);
            return;
        }
        out.println("    differ in " + Numbers.grouped(found.different()) + " bytes" + unknown);
        for (ByteRange run : found.runs().subList(0, Math.min(SHOWN, found.runs().size()))) {
            out.println("      byte " + Numbers.grouped(run.start()) + " of both, " + Numbers.grouped(run.length()) + " bytes: image bytes "
                    + Numbers.grouped(pair.one().start() + run.start()) + " and " + Numbers.grouped(pair.other().start() + run.start()));
        }
        if (found.runs().size() > SHOWN) {
            out.println("      and further ones; --json lists up to 100");
        }
        if (!found.fields().isEmpty()) {
            out.println("    fields: " + SafeText.of(String.join(", ", found.fields())));
        }
        out.println("    " + switch (found.passes()) {
            case BOTH -> "no check of its own fails at either place";
            case ONE -> "the first passes its own checks, the second does not";
            case OTHER -> "the second passes its own checks, the first does not";
            case NEITHER -> "checks fail at both places";
            case NOT_KNOWN -> "no check fails in what was read; not all of both was";
        });
    }

    private String place(ByteRange bytes) {
        return "LBA " + Numbers.grouped(bytes.start() / image.sectorSize())
                + (bytes.start() % image.sectorSize() == 0 ? "" : " byte " + bytes.start() % image.sectorSize());
    }

    private void json(List<PlaceComparison> all) throws IOException {
        try (JsonOut to = new JsonOut(out)) {
            to.object(() -> to.array("places", all, found -> {
                PlaceComparison one = (PlaceComparison) found;
                to.object(() -> {
                    to.field("volume", one.pair().volume()).field("name", one.pair().name()).field("one", one.pair().one().start())
                            .field("other", one.pair().other().start()).field("length", Math.min(one.pair().one().length(), one.pair().other().length()))
                            .field("equal", one.equal()).field("different", one.different()).field("unknown", one.unknown());
                    to.array("runs", one.runs(), run -> to.object(() -> to.field("start", ((ByteRange) run).start()).field("length", ((ByteRange) run).length())));
                    to.array("fields", one.fields(), to::value);
                    to.field("passes", one.passes().word());
                });
            })).line();
        }
    }
}
