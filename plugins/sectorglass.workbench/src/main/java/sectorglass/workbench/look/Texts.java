package sectorglass.workbench.look;

import java.text.MessageFormat;
import java.util.Locale;
import java.util.MissingResourceException;
import java.util.ResourceBundle;

/**
 * The texts of the window: {@code texts.properties}, and {@code habits.properties} for what serves in every part, each with German beside
 * it, UTF-8, patterns of {@link MessageFormat}.
 */
public final class Texts {
    static final String[] FILES = {"sectorglass.workbench.texts", "sectorglass.workbench.habits"};

    private Texts() {
    }

    /** A text in the language of the platform, its places filled; numbers are put in as they are given. */
    public static String of(String key, Object... values) {
        return in(Locale.getDefault(), key, values);
    }

    static String in(Locale locale, String key, Object... values) {
        String pattern = pattern(locale, key);
        if (pattern == null) {
            return key;
        }
        return values.length == 0 ? pattern : new MessageFormat(pattern, Locale.ROOT).format(values);
    }

    private static String pattern(Locale locale, String key) {
        for (String file : FILES) {
            try {
                ResourceBundle bundle = bundle(file, locale);
                if (bundle.containsKey(key)) {
                    return bundle.getString(key);
                }
            } catch (MissingResourceException e) {
                // the next file
            }
        }
        return null;
    }

    private static ResourceBundle bundle(String file, Locale locale) {
        return ResourceBundle.getBundle(file, locale, Texts.class.getClassLoader(),
                ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
    }
}
