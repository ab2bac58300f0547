package sectorglass.practice.disk;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

import sectorglass.make.ContentKind;
import sectorglass.make.DataFile;
import sectorglass.make.Folder;
import sectorglass.make.Node;
import sectorglass.make.SplitMix64;
import sectorglass.make.Times;

/** Draws the folders and files of a volume. Every name is invented; a file in the root says so. */
final class PracticeContent {
    private static final String[] FOLDERS = {"Workshop notes", "Garden plans", "Letters", "Trail maps", "Bird counts", "Sound sketches", "Kite drawings",
        "Bread recipes", "Cellar list", "Ferry times"};
    private static final String[] STEMS = {"heron", "willow", "lantern", "quarry", "harbour", "orchard", "bramble", "pebble", "thistle", "mill race", "turnstile",
        "lighthouse", "hedgerow", "boathouse", "millstone", "weather vane"};
    private static final String[] SHORT = {"PLAN", "PAGE", "SHOT", "NOTE", "LIST", "TAKE"};
    private static final ContentKind[] KINDS = {ContentKind.TEXT, ContentKind.PDF, ContentKind.JPEG, ContentKind.PNG, ContentKind.ZIP, ContentKind.WAV};
    private static final String[] ENDINGS = {"txt", "pdf", "jpg", "png", "zip", "wav"};
    private static final Instant FIRST = Instant.parse("2023-03-01T06:00:00Z");
    private static final int CARDS = 60;

    private final SplitMix64 numbers;
    private int next;

    PracticeContent(SplitMix64 numbers) {
        this.numbers = numbers;
    }

    private Times time() {
        Instant at = FIRST.plus(Duration.ofMinutes(numbers.below(900_000))).plusSeconds(2L * numbers.below(30));
        return new Times(at, at.plus(Duration.ofHours(numbers.below(400))), at.plus(Duration.ofDays(20 + numbers.below(100))));
    }

    /** A root with three folders, and one of sixty small files. */
    Folder root() {
        Times start = time();
        List<Node> all = new ArrayList<>();
        all.add(DataFile.of("READ ME - all invented.txt", 700, ContentKind.NOTICE, start));
        all.add(file(true, 9_000));
        all.add(file(true, 21_000));
        int first = numbers.below(FOLDERS.length);
        for (int i = 0; i < 3; i++) {
            all.add(Folder.of(FOLDERS[(first + 3 * i) % FOLDERS.length], time(), files(i)));
        }
        all.add(Folder.of("Index cards", time(), cards()));
        return Folder.root(start, all);
    }

    private List<Node> files(int folder) {
        List<Node> files = new ArrayList<>();
        files.add(file(true, 18_000));
        files.add(file(true, 26_000));
        files.add(file(false, 24_000));
        files.add(file(false, 40_000));
        files.add(file(false, 36_000).inPieces(3));
        if (folder == 1) {
            files.add(file(false, 20_000).asDeleted());
        }
        return files;
    }

    private DataFile file(boolean shortName, int bytes) {
        int kind = numbers.below(KINDS.length);
        int number = ++next;
        String name = shortName ? SHORT[numbers.below(SHORT.length)] + "_" + number / 100 % 10 + number / 10 % 10 + number % 10 + "." + ENDINGS[kind].toUpperCase(java.util.Locale.ROOT)
                : STEMS[numbers.below(STEMS.length)] + " " + number + "." + ENDINGS[kind];
        return DataFile.of(name, bytes + numbers.below(9_000), KINDS[kind], time());
    }

    private List<Node> cards() {
        List<Node> cards = new ArrayList<>();
        Times written = time();
        for (int i = 1; i <= CARDS; i++) {
            cards.add(DataFile.of("card " + i / 10 + i % 10 + ".txt", 150 + numbers.below(400), ContentKind.TEXT, written));
        }
        return cards;
    }
}
