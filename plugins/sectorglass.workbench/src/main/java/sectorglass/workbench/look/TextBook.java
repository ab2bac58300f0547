package sectorglass.workbench.look;

import java.text.MessageFormat;
import java.util.List;
import java.util.Locale;
import java.util.MissingResourceException;
import java.util.ResourceBundle;

/** Texts of one bundle, in properties files with German beside them, UTF-8, patterns of {@link MessageFormat}. */
public final class TextBook {
    private final List<String> files;
    private final ClassLoader loader;

    /**
     * A book of texts.
     *
     * @param bundle a class of the bundle that holds the files
     * @param files their names as of resource bundles; looked into in this order
     */
    public TextBook(Class<?> bundle, String... files) {
        this.files = List.of(files);
        this.loader = bundle.getClassLoader();
    }

    /** A text, its places filled; numbers are put in as they are given. A key that is nowhere stands for itself. */
    public String in(Locale locale, String key, Object... values) {
        String pattern = pattern(locale, key);
        if (pattern == null) {
            return key;
        }
        return values.length == 0 ? pattern : new MessageFormat(pattern, Locale.ROOT).format(values);
    }

    private String pattern(Locale locale, String key) {
        for (String file : files) {
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

    /** A file in a language. */
    public ResourceBundle bundle(String file, Locale locale) {
        return ResourceBundle.getBundle(file, locale, loader,
                ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
    }
}
