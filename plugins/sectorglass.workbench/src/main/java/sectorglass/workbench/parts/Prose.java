package sectorglass.workbench.parts;

import java.util.ArrayList;
import java.util.List;

/** A text with stretches that look different. */
final class Prose {

    /** How a stretch looks. */
    enum Look { TITLE, LABEL, WRONG, BYTES }

    /** A stretch of the text. */
    record Stretch(int start, int length, Look look) { }

    private final StringBuilder text = new StringBuilder();
    private final List<Stretch> stretches = new ArrayList<>();

    Prose title(String words) {
        return add(words, Look.TITLE).plain("\n");
    }

    /** A label and what it labels, on one line; nothing where there is nothing to tell. */
    Prose line(String label, String words) {
        return words == null || words.isBlank() ? this : add(label, Look.LABEL).plain("  " + words + "\n");
    }

    /** The same in the colour of what does not hold. */
    Prose wrong(String label, String words) {
        return words == null || words.isBlank() ? this : add(label, Look.LABEL).plain("  ").add(words, Look.WRONG).plain("\n");
    }

    /** The same in the font of bytes. */
    Prose bytes(String label, String words) {
        return words == null || words.isBlank() ? this : add(label, Look.LABEL).plain("  ").add(words, Look.BYTES).plain("\n");
    }

    Prose paragraph(String words) {
        return words == null || words.isBlank() ? this : plain(words.strip() + "\n");
    }

    /** Another text after this one. */
    Prose then(Prose other) {
        int shift = text.length();
        text.append(other.text);
        other.stretches.forEach(stretch -> stretches.add(new Stretch(stretch.start + shift, stretch.length, stretch.look)));
        return this;
    }

    Prose gap() {
        return plain("\n");
    }

    private Prose plain(String words) {
        text.append(words);
        return this;
    }

    private Prose add(String words, Look look) {
        stretches.add(new Stretch(text.length(), words.length(), look));
        text.append(words);
        return this;
    }

    String text() {
        return text.toString();
    }

    List<Stretch> stretches() {
        return stretches;
    }
}
