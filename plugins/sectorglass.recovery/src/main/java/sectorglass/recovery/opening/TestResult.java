package sectorglass.recovery.opening;

import java.util.List;
import java.util.Locale;

import sectorglass.image.Texts;

/**
 * What a test found.
 *
 * @param answer the answer
 * @param type the type of the content, or null where it is not known
 * @param reason key of the sentence that says why, beside {@link TestResult}; null for a plain success
 * @param values the sentence's values
 * @param nameFits whether the ending of the name is one of the type's; true where the type is not known
 */
public record TestResult(Answer answer, FileType type, String reason, List<Object> values, boolean nameFits) {

    /** Answers. */
    public enum Answer {
        /** Decoded whole, or every checksum of its own is right. */
        OPENED,
        /** Something is wrong, or was not read. */
        DAMAGED,
        /** Its structure holds together; the format has no checksums that could say more. */
        SOUND,
        /** Not tested: no test for this kind, encrypted, too large. */
        NOT_TESTED;

        /** The words in JSON and manifests. */
        public String word() {
            return switch (this) {
                case OPENED -> "opened";
                case DAMAGED -> "damaged";
                case SOUND -> "structure sound";
                case NOT_TESTED -> "cannot be tested";
            };
        }
    }

    /** Decoded whole. */
    public static TestResult opened() {
        return of(Answer.OPENED, null);
    }

    /** The structure holds together. */
    public static TestResult sound() {
        return of(Answer.SOUND, null);
    }

    /** Something is wrong. */
    public static TestResult damaged(String reason, Object... values) {
        return of(Answer.DAMAGED, reason, values);
    }

    /** Cannot be tested. */
    public static TestResult notTested(String reason, Object... values) {
        return of(Answer.NOT_TESTED, reason, values);
    }

    private static TestResult of(Answer answer, String reason, Object... values) {
        return new TestResult(answer, null, reason, List.of(values), true);
    }

    /** The same about a file of this type. */
    TestResult about(FileType known, boolean fits) {
        return new TestResult(answer, known, reason, values, fits);
    }

    /** Why, in a sentence; empty for a plain success whose name fits. */
    public String sentence(Locale locale) {
        Texts texts = new Texts(TestResult.class, locale);
        String why = reason == null ? "" : texts.of(reason, values.toArray());
        String name = nameFits || type == null ? "" : texts.of("name.other", type.name());
        return why.isEmpty() ? name : name.isEmpty() ? why : why + " " + name;
    }
}
