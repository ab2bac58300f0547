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

/**
 * The sentences of a package: {@code texts.properties} and {@code texts_LANGUAGE.properties} beside a class of it, UTF-8, patterns of
 * {@link MessageFormat}.
 */
public final class Texts {
    private static final Map<File, Properties> FILES = new ConcurrentHashMap<>();

    private final Class<?> beside;
    private final String name;
    private final Locale locale;

    /** Compared by hand: what the compiler would add is linked at run time, and every command asks for a text. */
    private record File(Class<?> beside, String name) {
        @Override
        public boolean equals(Object other) {
            return other instanceof File file && file.beside == beside && file.name.equals(name);
        }

        @Override
        public int hashCode() {
            return name.hashCode() * 31 + beside.getName().hashCode();
        }
    }

    Texts(Locale locale) {
        this(Texts.class, locale);
    }

    /**
     * The sentences beside a class.
     *
     * @param locale whose language is wanted; English stands in for what it lacks
     */
    public Texts(Class<?> beside, Locale locale) {
        this(beside, "texts", locale);
    }

    /**
     * The sentences in other files beside a class.
     *
     * @param name of the files, without language and ending
     */
    public Texts(Class<?> beside, String name, Locale locale) {
        this.beside = beside;
        this.name = name;
        this.locale = locale;
    }

    /** The language. */
    public Locale locale() {
        return locale;
    }

    /**
     * The sentence with its values; a path or text from outside is made safe to show.
     *
     * @throws IllegalArgumentException if no file has the key
     */
    public String of(String key, Object... values) {
        String pattern = FILES.computeIfAbsent(new File(beside, name + "_" + locale.getLanguage() + ".properties"), Texts::read).getProperty(key);
        if (pattern == null) {
            pattern = FILES.computeIfAbsent(new File(beside, name + ".properties"), Texts::read).getProperty(key);
        }
        if (pattern == null) {
            throw new IllegalArgumentException("no text " + key + " in " + name + " beside " + beside.getName());
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

    private static Properties read(File file) {
        Properties properties = new Properties();
        try (InputStream in = file.beside().getResourceAsStream(file.name())) {
            if (in != null) {
                properties.load(new InputStreamReader(in, StandardCharsets.UTF_8));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(file.name(), e);
        }
        return properties;
    }
}
