package sectorglass.workbench.chunks;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.Phrases;
import sectorglass.image.ImagePart;
import sectorglass.image.PartOrder;
import sectorglass.image.SafeText;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;

/** The parts of an image in the order that a person is about to choose, and what speaks for the place of each. */
final class PartRows {

    /** What is known of the place of a part. */
    enum Standing { PROVEN, OPEN, ELSEWHERE }

    /**
     * A part.
     *
     * @param part its file and size; where it begins is told by its place in the list
     * @param opened its place in the order as opened, from 0; -1 where it was added
     */
    private record Row(ImagePart part, int opened) { }

    private final List<Row> rows = new ArrayList<>();
    private final int sectorSize;
    private PartOrder order;

    PartRows(List<ImagePart> parts, int sectorSize) {
        this.sectorSize = sectorSize;
        for (int i = 0; i < parts.size(); i++) {
            rows.add(new Row(parts.get(i), i));
        }
    }

    /** Takes over what structures say, or null where they cannot be asked. */
    void judged(PartOrder found) {
        order = found;
    }

    int size() {
        return rows.size();
    }

    /** Exchanges two neighbours; whether both are there. */
    boolean exchange(int one, int other) {
        boolean there = Math.min(one, other) >= 0 && Math.max(one, other) < rows.size();
        if (there) {
            Collections.swap(rows, one, other);
        }
        return there;
    }

    void remove(int row) {
        rows.remove(row);
    }

    /** Adds a file, or with null a missing part of so many bytes. */
    void add(int at, Path file, long bytes) {
        rows.add(at, new Row(new ImagePart(file, -1, 0, bytes), -1));
    }

    /** Whether structures speak for another order than that as opened. */
    boolean spokenFor() {
        return order != null && order.wrong();
    }

    /** The order that structures speak for. */
    void asSpokenFor() {
        rows.clear();
        for (int index : order.proposed()) {
            rows.add(new Row(order.parts().get(index).part(), index));
        }
    }

    /** Whether the order is no longer that as opened. */
    boolean changed(int opened) {
        for (int i = 0; i < rows.size(); i++) {
            if (rows.get(i).opened != i) {
                return true;
            }
        }
        return rows.size() != opened;
    }

    /** The parts one after the other. */
    List<ImagePart> laid() {
        List<ImagePart> laid = new ArrayList<>();
        long at = 0;
        for (Row row : rows) {
            laid.add(new ImagePart(row.part.file(), row.part.number(), at, row.part.bytes()));
            at += row.part.bytes();
        }
        return laid;
    }

    String file(int row) {
        ImagePart part = rows.get(row).part;
        return part.missing() ? Texts.of("parts.missing") : SafeText.of(String.valueOf(part.file().getFileName()));
    }

    String size(int row) {
        return Numbers.grouped(rows.get(row).part.bytes());
    }

    /** Where a part begins: its sector, and the byte in it where it cuts one. */
    String begin(int row) {
        return begin(laid().get(row).start());
    }

    private String begin(long at) {
        String lba = "LBA " + Numbers.grouped(at / sectorSize);
        return at % sectorSize == 0 ? lba : Texts.of("parts.cut", lba, Numbers.grouped(at % sectorSize));
    }

    Standing standing(int row) {
        PartOrder.Place place = place(row);
        if (place == null) {
            return Standing.OPEN;
        }
        long start = laid().get(row).start();
        if (place.home() >= 0) {
            return place.home() == start ? Standing.PROVEN : Standing.ELSEWHERE;
        }
        if (!place.onGrid(start)) {
            return Standing.ELSEWHERE;
        }
        return place.grid() != null && place.fits() == 1 || joins(row - 1) || joins(row) ? Standing.PROVEN : Standing.OPEN;
    }

    /** In words what speaks for the place or against it. */
    String why(int row) {
        PartOrder.Place place = place(row);
        if (place == null) {
            return Texts.of(rows.get(row).part.missing() ? "parts.why.missing" : rows.get(row).opened < 0 ? "parts.why.added" : "parts.why.unasked");
        }
        long start = laid().get(row).start();
        List<String> words = new ArrayList<>();
        if (place.home() >= 0) {
            int count = Math.max(place.agreeing(), place.elsewhere());
            words.add(place.home() == start ? Texts.of("parts.why.home", count, phrase(place.example()))
                    : Texts.of("parts.why.elsewhere", count, phrase(place.example()), begin(place.home())));
        }
        if (place.grid() != null) {
            words.add(Texts.of(!place.onGrid(start) ? "parts.why.off" : place.fits() == 1 ? "parts.why.only" : "parts.why.fits", place.grid().count(),
                    phrase(place.grid().structure()), place.fits()));
        }
        if (joins(row - 1)) {
            words.add(Texts.of("parts.why.before"));
        }
        if (joins(row)) {
            words.add(Texts.of("parts.why.after"));
        }
        return words.isEmpty() ? Texts.of("parts.why.nothing") : String.join("; ", words);
    }

    private static String phrase(String english) {
        return english == null ? "" : SafeText.of(Phrases.in(Locale.getDefault()).of(english));
    }

    private PartOrder.Place place(int row) {
        int opened = rows.get(row).opened;
        return order == null || opened < 0 || rows.get(row).part.missing() ? null : order.parts().get(opened);
    }

    /** Whether a sound structure crosses the border behind a part, which was seen between these two. */
    private boolean joins(int row) {
        if (order == null || row < 0 || row + 1 >= rows.size()) {
            return false;
        }
        int opened = rows.get(row).opened;
        return opened >= 0 && opened < order.joined().size() && order.joined().get(opened) && rows.get(row + 1).opened == opened + 1;
    }
}
