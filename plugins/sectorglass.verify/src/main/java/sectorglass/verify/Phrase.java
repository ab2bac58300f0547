package sectorglass.verify;

import java.util.Map;

/**
 * A part of a sentence that a checker chooses and the rule's texts word: the text {@code RULE.KEY} in the reader's language. Given
 * to {@link Outcome#with}, alone or in a list.
 *
 * @param key the text's key below its rule, for instance {@code cause.short-image}
 * @param values for the placeholders of that text, before those of the finding
 */
public record Phrase(String key, Map<String, Object> values) {

    /** A phrase without placeholders. */
    public static Phrase of(String key) {
        return new Phrase(key, Map.of());
    }

    @Override
    public String toString() {
        return key;
    }
}
