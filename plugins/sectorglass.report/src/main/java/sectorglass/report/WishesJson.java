package sectorglass.report;

import java.io.OutputStream;
import java.util.List;

import sectorglass.disk.FileState;
import sectorglass.recovery.outcome.Wish;
import sectorglass.recovery.outcome.WishAnswer;

/** Answers to a wanted list as JSON. */
public final class WishesJson {

    private WishesJson() {
    }

    /** Writes {@code {"wishes":[…]}}; the stream stays open. */
    public static void write(List<WishAnswer> answers, OutputStream out) {
        try (JsonOut to = new JsonOut(out)) {
            to.object(() -> to.array("wishes", answers, each -> {
                WishAnswer answer = (WishAnswer) each;
                Wish wish = answer.wish();
                to.object(() -> {
                    to.field("line", wish.line()).field("name", wish.name()).field("folder", wish.folder())
                            .field("kind", wish.kind() == null ? null : wish.kind().word()).field("from", wish.from()).field("to", wish.to()).field("note", wish.note())
                            .field("answer", answer.answer().words()).field("files", answer.totals().files()).field("bytes", answer.totals().bytes());
                    for (FileState state : FileState.values()) {
                        to.field(state.word(), answer.totals().files(state));
                    }
                    to.field("emptyInside", answer.totals().empty()).field("unreadMetadata", answer.unreadMetadata());
                    to.array("some", answer.some(), p -> {
                        WishAnswer.Place place = (WishAnswer.Place) p;
                        to.object(() -> to.field("volume", place.outcome().volume().number()).field("path", place.outcome().tree().path(place.entry()))
                                .field("state", place.outcome().state(place.entry()).word()));
                    });
                });
            })).line();
        }
    }
}
