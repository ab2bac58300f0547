package sectorglass.workbench.compare;

import sectorglass.decode.FieldNode;
import sectorglass.image.ReadState;
import sectorglass.image.SafeText;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Explained;
import sectorglass.workbench.pages.Known;

/** What is said of the byte at the caret of both sides. */
final class CompareText {

    private CompareText() {
    }

    static String caret(Pair pair, Twin twin, long offset) {
        return Texts.of("compare.at", Numbers.grouped(offset), Numbers.hex(offset, 1), side(pair.left(), twin.left(), offset),
                side(pair.right(), twin.right(), offset), Texts.of("compare." + switch (twin.at(0)) {
                    case SAME -> "equal";
                    case DIFFERENT -> "different";
                    case UNKNOWN -> "notknown";
                }));
    }

    private static String side(Side side, Known known, long offset) {
        ReadState state = known.state(0);
        String value = state == null ? Texts.of("bytes.coming") : state == ReadState.READ
                ? Numbers.hex(known.bytes()[0] & 0xFF, 2) + " (" + (known.bytes()[0] & 0xFF) + ")" : Texts.of("state." + state.word());
        return Numbers.place(side.start() + offset, side.image().sectorSize()) + ": " + value;
    }

    /** The field of the left side, where one explains the byte. */
    static String field(Explained explained, long address) {
        FieldNode field = explained.fieldAt(address);
        return "  \u00B7  " + SafeText.of(explained.structure().name()) + (field == null ? "" : ", " + SafeText.of(field.label()));
    }
}
