package sectorglass.practice.disk;

import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;

import sectorglass.image.Texts;

/** A grade in sentences, with what was wrong and why. */
public final class GradeText {
    private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();

    private final DiskKey key;
    private final Texts texts;

    /** For grades by one key. */
    public GradeText(DiskKey key, Locale locale) {
        this.key = key;
        texts = new Texts(GradeText.class, locale);
    }

    /** The lines, the sum first. */
    public List<String> lines(Grade grade) {
        List<String> lines = new ArrayList<>();
        lines.add((grade.name().isBlank() ? "" : grade.name() + ": ") + texts.of("grade.points", grade.points(), grade.most()));
        if (!grade.code().equals(key.code())) {
            lines.add(texts.of("grade.other", grade.code()));
            return lines;
        }
        lines.add(grade.count() > 0 ? texts.of("grade.count.right", grade.count()) : texts.of("grade.count.wrong", key.faults().size()));
        for (int i = 0; i < grade.faults().size(); i++) {
            fault(i + 1, grade.faults().get(i), lines);
        }
        grade.wrong().forEach(a -> lines.add(texts.of("grade.false", answer(a), Grading.FALSE)));
        grade.consequences().forEach(a -> lines.add(texts.of("grade.follows", answer(a))));
        return lines;
    }

    private void fault(int number, Grade.Graded graded, List<String> lines) {
        KeyFault fault = graded.fault();
        int most = Grading.CHECK + Grading.PLACE + Grading.VALUE;
        if (graded.answer() == null) {
            lines.add(texts.of("grade.missed", number, fault.check()));
        } else {
            lines.add(texts.of("grade.found", number, fault.check(), graded.points(), most));
            lines.add("    " + texts.of(graded.check() > 0 ? "grade.check.right" : "grade.check.wrong") + "; "
                    + texts.of(graded.place() == Grading.PLACE ? "grade.place.right" : graded.place() > 0 ? "grade.place.sector" : "grade.place.wrong") + "; "
                    + texts.of(graded.value() > 0 ? "grade.value.right" : "grade.value.wrong"));
        }
        if (graded.points() < most) {
            Place place = fault.places().get(0);
            lines.add("    " + fault.what());
            lines.add("    " + texts.of("grade.where", KeySheet.place(texts, place.firstByte(), key.sectorSize()), HEX.formatHex(place.right()),
                    HEX.formatHex(place.wrong())));
            lines.add("    " + fault.means());
            lines.add("    " + texts.of("grade.source", fault.source()));
        }
    }

    private String answer(Answer a) {
        return texts.of("grade.answer", a.lba() == null ? "–" : Long.toString(a.lba()), a.inSector() == null ? "–" : Integer.toString(a.inSector()),
                a.check().isBlank() ? texts.of("grade.none") : a.check());
    }
}
