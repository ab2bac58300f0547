package sectorglass.cli;

import java.io.PrintStream;
import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.FileState;
import sectorglass.image.SafeText;
import sectorglass.recovery.outcome.Wish;
import sectorglass.recovery.outcome.WishAnswer;

/** Answers to a wanted list as text. */
final class WishText {

    private WishText() {
    }

    static void print(List<WishAnswer> answers, PrintStream out) {
        for (WishAnswer answer : answers) {
            out.println("Line " + answer.wish().line() + ": " + SafeText.of(words(answer.wish())));
            out.println("  " + answer.answer().words() + (answer.totals().files() == 0 ? "" : ": " + Numbers.grouped(answer.totals().files()) + " files, "
                    + Numbers.size(answer.totals().bytes()) + "; complete " + Numbers.grouped(answer.totals().files(FileState.COMPLETE)) + ", damaged "
                    + Numbers.grouped(answer.totals().files(FileState.DAMAGED)) + ", lost " + Numbers.grouped(answer.totals().files(FileState.LOST))
                    + (answer.totals().empty() == 0 ? "" : ", empty inside " + Numbers.grouped(answer.totals().empty()))));
            if (answer.answer() == WishAnswer.Answer.NOT_SEEN) {
                out.println(answer.unreadMetadata() == 0 ? "  All metadata was read: it is not there." : "  " + Numbers.grouped(answer.unreadMetadata())
                        + " sectors of metadata were not read, so it may exist all the same.");
            }
            for (WishAnswer.Place place : answer.some().subList(0, Math.min(5, answer.some().size()))) {
                out.println("    " + place.outcome().volume().number() + ": " + place.outcome().tree().path(place.entry()) + ", "
                        + place.outcome().state(place.entry()).word());
            }
        }
    }

    private static String words(Wish wish) {
        List<String> words = new ArrayList<>();
        words.add(wish.name().isEmpty() ? "" : "name " + wish.name());
        words.add(wish.folder().isEmpty() ? "" : "folder " + wish.folder());
        words.add(wish.kind() == null ? "" : "kind " + wish.kind().word());
        words.add(wish.from() == null ? "" : "from " + wish.from());
        words.add(wish.to() == null ? "" : "to " + wish.to());
        words.removeIf(String::isEmpty);
        return String.join(", ", words) + (wish.note().isEmpty() ? "" : " (" + wish.note() + ")");
    }
}
