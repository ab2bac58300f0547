package sectorglass.disk;

import java.text.MessageFormat;
import java.util.Locale;
import java.util.ResourceBundle;

/** Sentences of repairs: {@code repairs.properties} and its translations beside a class of the bundle, with {@link MessageFormat} places. */
public final class RepairTexts {
    private final ResourceBundle texts;

    /**
     * The texts of a bundle.
     *
     * @param beside a class in the package that holds the file
     */
    public RepairTexts(Class<?> beside, Locale locale) {
        texts = ResourceBundle.getBundle(beside.getPackageName() + ".repairs", locale, beside.getClassLoader(),
                ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
    }

    /** A sentence; numbers are shown plain. */
    public String of(String key, Object... values) {
        Object[] shown = new Object[values.length];
        for (int i = 0; i < values.length; i++) {
            shown[i] = String.valueOf(values[i]);
        }
        return new MessageFormat(texts.getString(key), Locale.ROOT).format(shown);
    }
}
