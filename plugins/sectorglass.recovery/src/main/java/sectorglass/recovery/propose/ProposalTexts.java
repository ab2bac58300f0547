package sectorglass.recovery.propose;

import java.text.MessageFormat;
import java.util.Locale;
import java.util.ResourceBundle;

/** Sentences of this package. */
final class ProposalTexts {
    private final ResourceBundle texts;

    ProposalTexts(Locale locale) {
        texts = ResourceBundle.getBundle("sectorglass.recovery.propose.texts", locale, ProposalTexts.class.getClassLoader(),
                ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
    }

    String of(String key, Object... values) {
        Object[] shown = new Object[values.length];
        for (int i = 0; i < values.length; i++) {
            shown[i] = String.valueOf(values[i]);
        }
        return new MessageFormat(texts.getString(key), Locale.ROOT).format(shown);
    }
}
