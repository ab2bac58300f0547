package sectorglass.image;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.text.MessageFormat;
import java.util.Locale;
import java.util.Map;
import java.util.Properties;
import java.util.concurrent.ConcurrentHashMap;

/** The sentences of this bundle: {@code texts.properties} and {@code texts_LANGUAGE.properties}, UTF-8, patterns of {@link MessageFormat}. */
final class Texts {
    private static final Map<String, Properties> FILES = new ConcurrentHashMap<>();

    private final Locale locale;

    Texts(Locale locale) {
        this.locale = locale;
    }

    /** The sentence with its values; a path or text from outside is made safe to show. */
    String of(String key, Object... values) {
        String pattern = FILES.computeIfAbsent("texts_" + locale.getLanguage() + ".properties", Texts::read).getProperty(key);
        if (pattern == null) {
            pattern = FILES.computeIfAbsent("texts.properties", Texts::read).getProperty(key);
        }
        Object[] safe = new Object[values.length];
        for (int i = 0; i < values.length; i++) {
            safe[i] = values[i] instanceof Number ? values[i] : SafeText.of(String.valueOf(values[i]));
        }
        return new MessageFormat(pattern, Locale.ROOT).format(safe);
    }

    ImageException refusal(String key, Object... values) {
        return new ImageException(of(key, values));
    }

    private static Properties read(String file) {
        Properties properties = new Properties();
        try (InputStream in = Texts.class.getResourceAsStream(file)) {
            if (in != null) {
                properties.load(new InputStreamReader(in, StandardCharsets.UTF_8));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(file, e);
        }
        return properties;
    }
}
