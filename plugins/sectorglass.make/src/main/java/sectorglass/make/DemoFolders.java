package sectorglass.make;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/** What an invented photographer keeps: folders and files of the demo disk. All names are made up. */
final class DemoFolders {
    private static final Times START = Times.at("2024-11-02T08:15:00Z");
    private static final String[] SHOOTS = {"2025-01 Harbour in fog", "2025-02 Paper mill", "2025-04 Orchard bloom",
        "2025-05 Night market", "2025-06 Ridge walk"};

    private DemoFolders() {
    }

    private static Times day(int days, int minutes) {
        Instant modified = Instant.parse("2025-01-09T07:30:10Z").plus(Duration.ofDays(days)).plus(Duration.ofMinutes(minutes));
        return new Times(modified, modified, modified.plus(Duration.ofDays(2)));
    }

    private static DataFile notice() {
        return DataFile.of("READ ME - all invented.txt", 700, ContentKind.NOTICE, START);
    }

    private static String number(int number) {
        String digits = Integer.toString(number);
        return "0".repeat(4 - digits.length()) + digits;
    }

    /** Paperwork: offers, releases, a price list. */
    static Folder paperwork() {
        return Folder.root(START,
                notice(),
                Folder.of("Offers", START,
                        DataFile.of("Offer 2025-014 Quillmere.pdf", 14_200, ContentKind.PDF, day(3, 12)),
                        DataFile.of("Offer 2025-015 Tarnbrook.pdf", 15_871, ContentKind.PDF, day(9, 45)),
                        DataFile.of("draft.txt", 6_000, ContentKind.TEXT, day(9, 50)).asDeleted()),
                Folder.of("Releases", START,
                        DataFile.of("Model release blank.pdf", 9_333, ContentKind.PDF, day(1, 0)).with(0x21),
                        DataFile.of("releases 2024.zip", 48_007, ContentKind.ZIP, day(2, 5))),
                DataFile.of("PRICES.TXT", 2_950, ContentKind.TEXT, day(20, 1)));
    }

    /** A transfer volume: what is on its way to customers. */
    static Folder transfer() {
        List<Node> selection = new ArrayList<>();
        for (int i = 1; i <= 12; i++) {
            selection.add(DataFile.of("Harbour selection " + number(i) + ".jpg", 24_000 + 1_711 * i, ContentKind.JPEG, day(14, i))
                    .inPieces(i % 4 == 0 ? 3 : 1));
        }
        return Folder.root(START,
                notice(),
                Folder.of("Harbour in fog", day(14, 0), selection),
                Folder.of("Contact sheets", day(15, 0),
                        DataFile.of("SHEET01.PNG", 220_000, ContentKind.PNG, day(15, 1)),
                        DataFile.of("SHEET02.PNG", 187_431, ContentKind.PNG, day(15, 2)).inPieces(2)),
                DataFile.of("delivery list.txt", 12_345, ContentKind.TEXT, day(16, 30)));
    }

    /** The archive: a folder per shoot. */
    static Folder archive() {
        List<Node> root = new ArrayList<>();
        root.add(notice());
        int frame = 1;
        for (int shoot = 0; shoot < SHOOTS.length; shoot++) {
            List<Node> files = new ArrayList<>();
            for (int i = 0; i < 6; i++, frame++) {
                files.add(DataFile.of("QM" + number(frame) + ".JPG", 30_000 + 2_137L * (frame * 5 % 17), ContentKind.JPEG,
                        day(20 * shoot, 3 * i)).inPieces(frame % 9 == 0 ? 4 : 1));
                files.add(DataFile.of("QM" + number(frame) + ".sidecar.txt", 180 + 31L * (frame % 11), ContentKind.TEXT,
                        day(20 * shoot, 3 * i + 1)));
            }
            files.add(DataFile.of("Field notes.txt", 4_400 + 900L * shoot, ContentKind.TEXT, day(20 * shoot, 90)));
            root.add(Folder.of(SHOOTS[shoot], day(20 * shoot, 0), files));
        }
        List<Node> thumbnails = new ArrayList<>();
        for (int i = 1; i <= 240; i++) {
            thumbnails.add(DataFile.of("thumbnail " + number(i) + ".png", 380 + 7L * (i % 40), ContentKind.PNG, day(100, i)));
        }
        root.add(Folder.of("Thumbnails", day(100, 0), thumbnails));
        root.add(Folder.of("Sound", day(60, 0),
                DataFile.of("market ambience.wav", 441_044, ContentKind.WAV, day(60, 4)),
                DataFile.of("interview draft.wav", 220_544, ContentKind.WAV, day(61, 9)).asDeleted()));
        root.add(DataFile.of("catalogue.zip", 310_000, ContentKind.ZIP, day(110, 5)).inPieces(5));
        return Folder.root(START, root);
    }

    /** A copy of a camera's card. */
    static Folder card() {
        List<Node> frames = new ArrayList<>();
        for (int i = 1; i <= 14; i++) {
            DataFile picture = DataFile.of("FRM_" + number(200 + i) + ".JPG", 26_500 + 1_903L * i, ContentKind.JPEG, day(130, i));
            frames.add(i == 9 ? picture.asDeleted() : i % 5 == 0 ? picture.inPieces(3) : picture);
        }
        return Folder.root(START,
                notice(),
                Folder.of("PICTURES", day(130, 0), Folder.of("100RIDGE", day(130, 0), frames)),
                Folder.of("SOUND", day(130, 0), DataFile.of("MEMO0001.WAV", 88_044, ContentKind.WAV, day(130, 30))));
    }
}
