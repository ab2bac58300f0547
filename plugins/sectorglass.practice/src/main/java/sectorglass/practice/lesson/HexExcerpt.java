package sectorglass.practice.lesson;

import java.util.Locale;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;

/** A few rows of bytes around a place, as plain text: the place stands in brackets, bytes that were not read are dots. */
final class HexExcerpt {
    private static final int ROW = 16;
    private static final int MOST_ROWS = 4;

    private final SectorImage image;
    private final ByteRange place;

    HexExcerpt(SectorImage image, ByteRange place) {
        this.image = image;
        this.place = place;
    }

    /** The rows, each with a line end; an LBA goes before its first row. A long place is shown by its first and last rows. */
    String rows() {
        StringBuilder text = new StringBuilder();
        int size = image.sectorSize();
        long first = place.start() / ROW * ROW;
        long last = (place.end() - 1) / ROW * ROW;
        boolean all = last - first < (long) MOST_ROWS * ROW;
        if (last - first < 2 * ROW) {
            // what stands around it, as far as it belongs to the same sector
            first = first % size == 0 ? first : first - ROW;
            last = last % size == size - ROW ? last : last + ROW;
        }
        long lba = -1;
        for (long row = first; row <= last; row += ROW) {
            if (!all && row == first + 2 * ROW) {
                text.append("     …\n");
                row = last - ROW;
            }
            if (row / size != lba) {
                lba = row / size;
                text.append("LBA ").append(lba).append('\n');
            }
            row(text, row);
        }
        return text.toString();
    }

    private void row(StringBuilder text, long row) {
        int length = (int) Math.min(ROW, image.bytes() - row);
        Window window = image.window(row, length);
        byte[] bytes = window.raw(0, length);
        text.append(String.format(Locale.ROOT, "%03X  ", row % image.sectorSize()));
        StringBuilder letters = new StringBuilder();
        boolean open = false;
        for (int i = 0; i < length; i++) {
            boolean inside = place.contains(row + i);
            text.append(inside && !open ? '[' : open && !inside ? ']' : ' ');
            open = inside;
            boolean read = window.isRead(i, 1);
            text.append(read ? String.format(Locale.ROOT, "%02X", bytes[i]) : "··");
            letters.append(!read ? '·' : bytes[i] >= ' ' && bytes[i] < 127 && bytes[i] != '`' ? (char) bytes[i] : '.');
        }
        text.append(open ? ']' : ' ').append("  ").append(letters.toString().stripTrailing());
        while (text.charAt(text.length() - 1) == ' ') {
            text.setLength(text.length() - 1);
        }
        text.append('\n');
    }
}
