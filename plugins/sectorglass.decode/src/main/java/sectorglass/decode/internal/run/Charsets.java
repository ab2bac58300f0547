package sectorglass.decode.internal.run;

import java.nio.charset.Charset;
import java.nio.charset.IllegalCharsetNameException;
import java.nio.charset.UnsupportedCharsetException;
import java.util.Locale;
import java.util.Map;

import sectorglass.decode.internal.run.Trouble.Cause;

/**
 * An encoding of a spec.
 *
 * @param name as the spec writes it
 * @param charset Java's, or null where it is not known
 */
public record Charsets(String name, Charset charset) {
    private static final Map<String, String> OTHER_NAMES = Map.of("SJIS", "Shift_JIS", "SHIFT_JIS", "Shift_JIS", "CP437", "IBM437",
            "UTF8", "UTF-8", "UTF16LE", "UTF-16LE", "UTF16BE", "UTF-16BE");

    /** The encoding of a name; one that is not known becomes trouble when it is used. */
    public static Charsets of(String name) {
        try {
            return new Charsets(name, Charset.forName(OTHER_NAMES.getOrDefault(name.toUpperCase(Locale.ROOT), name)));
        } catch (IllegalCharsetNameException | UnsupportedCharsetException e) {
            return new Charsets(name, null);
        }
    }

    /** Whether Java knows it. */
    public boolean known() {
        return charset != null;
    }

    /** Bytes of the zero that ends a text. */
    public int unit() {
        String upper = name.toUpperCase(Locale.ROOT).replace("-", "");
        return upper.startsWith("UTF16") ? 2 : upper.startsWith("UTF32") ? 4 : 1;
    }

    /** Text of bytes; damaged sequences become U+FFFD. */
    public String decode(byte[] data, int from, int length) {
        if (charset == null) {
            throw Undecided.of(Cause.ENCODING, name);
        }
        return new String(data, from, length, charset);
    }
}
