package sectorglass.report.document;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** A table of a PDF; its title row stands on each page again. */
final class PdfTable {
    private static final float GAP = 8;
    private static final int MOST_LINES = 12;

    private final PdfPages pages;
    private final Block.Table table;
    private final float size;
    private final float[] left;
    private final float[] width;

    PdfTable(PdfPages pages, Block.Table table, float size) {
        this.pages = pages;
        this.table = table;
        this.size = size;
        int n = table.columns().size();
        left = new float[n];
        width = new float[n];
        double sum = java.util.Arrays.stream(table.widths()).sum();
        float at = 0;
        for (int i = 0; i < n; i++) {
            left[i] = at;
            width[i] = (float) (table.widths()[i] / sum) * PdfPages.WIDTH - (i < n - 1 ? GAP : 0);
            at += width[i] + GAP;
        }
    }

    void write() throws IOException {
        pages.need(60);
        head();
        for (int i = 0; i < table.rows().size(); i++) {
            row(table.rows().get(i), table.strong().contains(i), false);
        }
    }

    private void head() throws IOException {
        row(table.columns(), true, true);
        pages.rule(0, -4, PdfPages.WIDTH, 0.9f);
        pages.space(4);
    }

    private void row(List<String> cells, boolean strong, boolean head) throws IOException {
        List<List<String>> lines = new ArrayList<>();
        int most = 1;
        for (int i = 0; i < cells.size(); i++) {
            List<String> cell = pages.lines(cells.get(i), strong, size, width[i]);
            if (cell.size() > MOST_LINES) {
                cell = new ArrayList<>(cell.subList(0, MOST_LINES));
                cell.set(MOST_LINES - 1, "\u2026");
            }
            lines.add(cell);
            most = Math.max(most, cell.size());
        }
        float leading = size * 1.32f;
        if (pages.need(most * leading + 6) && !head) {
            head();
        }
        for (int line = 0; line < most; line++) {
            pages.down(leading);
            for (int i = 0; i < cells.size(); i++) {
                if (line < lines.get(i).size()) {
                    String text = lines.get(i).get(line);
                    float x = table.right()[i] ? left[i] + width[i] - pages.width(text, strong, size) : left[i];
                    pages.text(text, x, strong, size);
                }
            }
        }
        if (!head) {
            pages.hair(3.5f);
        }
        pages.space(3);
    }
}
