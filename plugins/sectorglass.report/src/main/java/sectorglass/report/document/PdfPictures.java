package sectorglass.report.document;

import java.io.IOException;
import java.util.List;

/** A grid of small pictures with their names; a row is never broken over two pages. */
final class PdfPictures {
    private static final int COLUMNS = 5;
    private static final float GAP = 10;
    private static final float ROOM = (PdfPages.WIDTH - (COLUMNS - 1) * GAP) / COLUMNS;
    private static final float SIZE = 7;
    private static final float LEADING = SIZE * 1.35f;
    private static final int MOST_LINES = 3;

    private final PdfPages pages;

    PdfPictures(PdfPages pages) {
        this.pages = pages;
    }

    void write(List<Block.Picture> pictures) throws IOException {
        for (int i = 0; i < pictures.size(); i += COLUMNS) {
            row(pictures.subList(i, Math.min(pictures.size(), i + COLUMNS)));
        }
    }

    private void row(List<Block.Picture> row) throws IOException {
        float tallest = 0;
        int lines = 1;
        for (Block.Picture picture : row) {
            tallest = Math.max(tallest, picture.height() * scale(picture));
            lines = Math.max(lines, name(picture).size());
        }
        pages.need(tallest + lines * LEADING + 14);
        for (int i = 0; i < row.size(); i++) {
            Block.Picture picture = row.get(i);
            pages.picture(picture, i * (ROOM + GAP), tallest, picture.width() * scale(picture), picture.height() * scale(picture));
        }
        pages.space(tallest + 2);
        for (int line = 0; line < lines; line++) {
            pages.space(LEADING);
            for (int i = 0; i < row.size(); i++) {
                List<String> name = name(row.get(i));
                if (line < name.size()) {
                    pages.text(name.get(line), i * (ROOM + GAP), false, SIZE);
                }
            }
        }
        pages.space(12);
    }

    private static float scale(Block.Picture picture) {
        return Math.min(0.75f, ROOM / Math.max(picture.width(), picture.height()));
    }

    /** The lines of a name; of a very long one the first. */
    private List<String> name(Block.Picture picture) {
        List<String> lines = pages.lines(picture.name(), false, SIZE, ROOM - SIZE);
        if (lines.size() <= MOST_LINES) {
            return lines;
        }
        return List.of(lines.get(0), lines.get(1), lines.get(2) + "\u2026");
    }
}
