package sectorglass.decode.internal.text;

import java.text.MessageFormat;
import java.util.Locale;
import java.util.ResourceBundle;

/** Sentences of the properties file beside this class, in the language of the program. */
public final class Texts {

    private Texts() {
    }

    /** The sentence of a key with its arguments; numbers must be given as text. */
    public static String of(String key, Object... arguments) {
        ResourceBundle bundle = ResourceBundle.getBundle("sectorglass.decode.internal.text.texts", Locale.getDefault(), Texts.class
                .getClassLoader(), ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
        return new MessageFormat(bundle.getString(key), Locale.ROOT).format(arguments);
    }
}
