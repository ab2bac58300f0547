package sectorglass.cli;

import java.io.PrintStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.FileState;
import sectorglass.image.SafeText;
import sectorglass.image.Texts;
import sectorglass.recovery.outcome.Totals;
import sectorglass.recovery.outcome.Wish;
import sectorglass.recovery.outcome.WishAnswer;

/** Answers to a wanted list as text. */
final class WishText {
    private static final int NAMED = 5;

    private WishText() {
    }

    static void print(List<WishAnswer> answers, Texts texts, PrintStream out) {
        for (WishAnswer answer : answers) {
            Totals totals = answer.totals();
            out.println(texts.of("wanted.line", Integer.toString(answer.wish().line()), SafeText.of(words(answer.wish(), texts))));
            String word = texts.of("wanted." + answer.answer().name().toLowerCase(Locale.ROOT));
            out.println("  " + (totals.files() == 0 ? word : texts.of("wanted.found", word, Numbers.grouped(totals.files()), Numbers.size(totals.bytes()),
                    Numbers.grouped(totals.files(FileState.COMPLETE)), Numbers.grouped(totals.files(FileState.DAMAGED)), Numbers.grouped(totals.files(FileState.LOST)))
                    + (totals.empty() == 0 ? "" : texts.of("wanted.empty", Numbers.grouped(totals.empty())))));
            if (answer.answer() == WishAnswer.Answer.NOT_SEEN) {
                out.println("  " + (answer.unreadMetadata() == 0 ? texts.of("wanted.absent") : texts.of("wanted.unread", Numbers.grouped(answer.unreadMetadata()))));
            }
            for (WishAnswer.Place place : answer.some().subList(0, Math.min(NAMED, answer.some().size()))) {
                out.println("    " + place.outcome().volume().number() + ": " + place.outcome().tree().path(place.entry()) + ", "
                        + texts.of("state." + place.outcome().state(place.entry()).word()));
            }
        }
    }

    private static String words(Wish wish, Texts texts) {
        List<String> words = new ArrayList<>();
        words.add(wish.name().isEmpty() ? "" : texts.of("wanted.name", wish.name()));
        words.add(wish.folder().isEmpty() ? "" : texts.of("wanted.folder", wish.folder()));
        words.add(wish.kind() == null ? "" : texts.of("wanted.kind", texts.of("kind." + wish.kind().word().replace(' ', '-'))));
        words.add(wish.from() == null ? "" : texts.of("wanted.from", wish.from()));
        words.add(wish.to() == null ? "" : texts.of("wanted.to", wish.to()));
        words.removeIf(String::isEmpty);
        return String.join(", ", words) + (wish.note().isEmpty() ? "" : " (" + wish.note() + ")");
    }
}
