package sectorglass.report.delivery;

import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.ArrayList;
import java.util.List;

import sectorglass.recovery.outcome.Wish;

/** A wish in words. */
final class WishWords {

    private WishWords() {
    }

    static String of(Wish wish, Forms forms) {
        DateTimeFormatter day = DateTimeFormatter.ofLocalizedDate(FormatStyle.MEDIUM).withLocale(forms.locale());
        List<String> words = new ArrayList<>();
        if (wish.kind() != null) {
            words.add(forms.of("kind." + wish.kind().word().replace(' ', '-')));
        }
        if (!wish.name().isEmpty()) {
            words.add(forms.of("wish.name", wish.name()));
        }
        if (!wish.folder().isEmpty()) {
            words.add(forms.of("wish.folder", wish.folder()));
        }
        if (wish.from() != null || wish.to() != null) {
            words.add(forms.of(wish.to() == null ? "wish.from" : wish.from() == null ? "wish.to" : "wish.span", wish.from() == null ? "" : day.format(wish.from()),
                    wish.to() == null ? "" : day.format(wish.to())));
        }
        return String.join(", ", words) + (wish.note().isEmpty() ? "" : " (" + wish.note() + ")");
    }
}
