package sectorglass.make.content;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/** The text that says that nothing here is real. */
final class Notice {
    private static final String TEXT = """
            EVERYTHING ON THIS VOLUME IS INVENTED

            This volume was made by a program from a fixed seed, for demonstration,
            practice and tests. The photographer, the places, the people and the
            projects named here do not exist. The pictures, sounds and documents are
            computed; none of them shows anything real. Faults may have been planted
            on purpose.
            """;

    private Notice() {
    }

    static byte[] of(int bytes) {
        byte[] text = TEXT.getBytes(StandardCharsets.US_ASCII);
        byte[] sized = Arrays.copyOf(text, bytes);
        if (bytes > text.length) {
            Arrays.fill(sized, text.length, bytes, (byte) '\n');
        }
        return sized;
    }
}
