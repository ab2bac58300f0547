package sectorglass.recovery;

import java.util.List;

/**
 * A reason, worded in the reader's language by {@link SearchTexts}.
 *
 * @param key of its text
 * @param values for the placeholders of the text
 */
public record FoundReason(String key, List<Object> values) {

    /** A reason with values. */
    public static FoundReason of(String key, Object... values) {
        return new FoundReason(key, List.of(values));
    }
}
