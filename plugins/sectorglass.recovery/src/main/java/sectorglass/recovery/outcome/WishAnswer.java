package sectorglass.recovery.outcome;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.FileState;
import sectorglass.image.Progress;

/**
 * The answer to a wish.
 *
 * @param wish the wish
 * @param totals the files that it means, of all volumes
 * @param some the first of them, at most {@value #MOST_NAMED}
 * @param unreadMetadata sectors of metadata, of all volumes, that were not read: what is not seen may exist all the same
 */
public record WishAnswer(Wish wish, Totals totals, List<Place> some, long unreadMetadata) {
    /** Files that an answer names. */
    public static final int MOST_NAMED = 20;

    /** A file. */
    public record Place(Outcome outcome, int entry) { }

    /** The answer in a word. */
    public enum Answer {
        /** Every file that is meant was recovered. */
        COMPLETE("found and complete"),
        /** Files were found; at least one is not complete. */
        DAMAGED("found and damaged"),
        /** Files were seen, but nothing of them was read. */
        LOST("seen but lost"),
        /** No file of that description was seen. */
        NOT_SEEN("not seen");

        private final String words;

        Answer(String words) {
            this.words = words;
        }

        /** The words in JSON and on the command line. */
        public String words() {
            return words;
        }
    }

    /** The answer in a word; files that are elsewhere, encrypted or unknown count as not complete. */
    public Answer answer() {
        long files = totals.files();
        long complete = totals.files(FileState.COMPLETE);
        return files == 0 ? Answer.NOT_SEEN : complete == files ? Answer.COMPLETE
                : complete == 0 && totals.files(FileState.DAMAGED) == 0 && totals.readBytes() == 0 && totals.files(FileState.LOST) == files ? Answer.LOST
                : Answer.DAMAGED;
    }

    /**
     * Answers all wishes. Deleted files do not count.
     *
     * @param outcomes the volumes
     */
    public static List<WishAnswer> of(WantedList wanted, List<Outcome> outcomes, Progress progress) {
        List<Totals> totals = new ArrayList<>();
        List<List<Place>> some = new ArrayList<>();
        for (int i = 0; i < wanted.wishes().size(); i++) {
            totals.add(new Totals());
            some.add(new ArrayList<>());
        }
        long unread = 0;
        for (Outcome outcome : outcomes) {
            unread += outcome.unreadMetadata();
            List<Wish.Finder> finders = wanted.wishes().stream().map(wish -> wish.finder(outcome.tree())).toList();
            outcome.tree().walk(outcome.tree().root(), (entry, depth) -> {
                progress.checkCancelled();
                boolean file = outcome.counted(entry);
                for (int i = 0; i < finders.size() && file; i++) {
                    if (finders.get(i).means(entry)) {
                        totals.get(i).add(outcome.state(entry), Math.max(0, outcome.tree().bytes(entry)), outcome.readBytes(entry), outcome.emptyInside(entry));
                        if (some.get(i).size() < MOST_NAMED) {
                            some.get(i).add(new Place(outcome, entry));
                        }
                    }
                }
                return true;
            });
        }
        List<WishAnswer> answers = new ArrayList<>();
        for (int i = 0; i < totals.size(); i++) {
            answers.add(new WishAnswer(wanted.wishes().get(i), totals.get(i), List.copyOf(some.get(i)), unread));
        }
        return answers;
    }
}
