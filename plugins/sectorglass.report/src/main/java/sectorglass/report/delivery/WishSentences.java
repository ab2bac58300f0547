package sectorglass.report.delivery;

import java.util.Locale;

import sectorglass.disk.FileState;
import sectorglass.recovery.outcome.Totals;
import sectorglass.recovery.outcome.Wish;
import sectorglass.recovery.outcome.WishAnswer;

/** A wish and its answer in the words of the customer's report. */
public final class WishSentences {

    private WishSentences() {
    }

    /** What is wanted; names in it stand as the list gives them. */
    public static String wish(Wish wish, Locale locale) {
        return WishWords.of(wish, new Forms(locale));
    }

    /** What was found of it. */
    public static String answer(WishAnswer answer, Locale locale) {
        return answer(answer, new Forms(locale));
    }

    static String answer(WishAnswer answer, Forms forms) {
        Totals totals = answer.totals();
        String key = "answer." + answer.answer().name().toLowerCase(Locale.ROOT);
        String words = answer.answer() == WishAnswer.Answer.NOT_SEEN && answer.unreadMetadata() > 0 ? forms.of("answer.not_seen.unread") : forms.of(key,
                totals.files(), totals.files(FileState.COMPLETE), totals.files(FileState.DAMAGED), totals.files(FileState.LOST));
        return totals.empty() > 0 ? words + " " + forms.of("answer.empty", totals.empty()) : words;
    }
}
