package sectorglass.workbench.recovery;

import java.text.MessageFormat;
import java.util.Locale;
import java.util.MissingResourceException;
import java.util.ResourceBundle;

import sectorglass.disk.Phrases;

/** The texts of this bundle: {@code texts.properties}, {@code texts_de.properties}, UTF-8, patterns of {@link MessageFormat}. */
public final class Words {
    private static final String FILE = "sectorglass.workbench.recovery.texts";

    private Words() {
    }

    /** A text in the language of the platform, its places filled; numbers are put in as they are given. */
    public static String of(String key, Object... values) {
        String pattern;
        try {
            pattern = bundle(Locale.getDefault()).getString(key);
        } catch (MissingResourceException e) {
            return key;
        }
        return values.length == 0 ? pattern : new MessageFormat(pattern, Locale.ROOT).format(values);
    }

    /** A reason or remark of an engine in the language of the platform. */
    public static String phrase(String english) {
        return Phrases.in(Locale.getDefault()).of(english);
    }

    static ResourceBundle bundle(Locale locale) {
        return ResourceBundle.getBundle(FILE, locale, Words.class.getClassLoader(),
                ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
    }
}
