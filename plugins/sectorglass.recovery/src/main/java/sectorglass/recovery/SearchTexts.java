package sectorglass.recovery;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.text.MessageFormat;
import java.util.Locale;
import java.util.Properties;

import sectorglass.image.SafeText;

/** Words and sentences of a search in one language; the key itself where there is no text for it. */
public final class SearchTexts {
    private final Properties texts = new Properties();

    /** Texts in a language, in English where it has none. */
    public SearchTexts(Locale locale) {
        read("search.properties");
        if (!locale.getLanguage().isEmpty()) {
            read("search_" + locale.getLanguage() + ".properties");
        }
    }

    /** A text with its values; text from the disk is made safe to show. */
    public String of(String key, Object... values) {
        String pattern = texts.getProperty(key);
        if (pattern == null) {
            return key;
        }
        Object[] safe = new Object[values.length];
        for (int i = 0; i < values.length; i++) {
            safe[i] = values[i] instanceof Number ? values[i] : SafeText.of(String.valueOf(values[i]));
        }
        return new MessageFormat(pattern, Locale.ROOT).format(safe);
    }

    /** A reason in words. */
    public String of(FoundReason reason) {
        return of("reason." + reason.key(), reason.values().toArray());
    }

    /** A structure in words. */
    public String structure(String word) {
        return word(word, "structure.");
    }

    /** A state in words. */
    public String state(FoundState state) {
        return of("state." + state.word());
    }

    private String word(String word, String before) {
        return texts.getProperty(before + word, SafeText.of(word.replace('-', ' ')));
    }

    private void read(String file) {
        try (InputStream in = SearchTexts.class.getResourceAsStream(file)) {
            if (in != null) {
                texts.load(new InputStreamReader(in, StandardCharsets.UTF_8));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(file, e);
        }
    }
}
