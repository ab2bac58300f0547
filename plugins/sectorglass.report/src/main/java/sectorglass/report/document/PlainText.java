package sectorglass.report.document;

import java.util.ArrayList;
import java.util.List;

import sectorglass.image.SafeText;

/** Writes a document as plain text, lines of 78 characters at most where words allow it; tables in columns. */
public final class PlainText {
    private static final int WIDTH = 78;

    private final StringBuilder out = new StringBuilder();

    private PlainText() {
    }

    /** The text, lines ended by line feeds. Drawings are left out. */
    public static String of(List<? extends Block> blocks) {
        PlainText text = new PlainText();
        blocks.forEach(text::add);
        return text.out.toString();
    }

    private void add(Block block) {
        if (block instanceof Block.Title title) {
            line(SafeText.of(title.text()));
            line("=".repeat(Math.min(WIDTH, title.text().length())));
            paragraph(String.join(" · ", title.below()));
        } else if (block instanceof Block.Heading heading) {
            line("");
            line(SafeText.of(heading.text()));
            line("-".repeat(Math.min(WIDTH, heading.text().length())));
        } else if (block instanceof Block.Paragraph paragraph) {
            paragraph(paragraph.text());
        } else if (block instanceof Block.Notice notice) {
            paragraph("! " + notice.text());
        } else if (block instanceof Block.Table table) {
            table(table);
        } else if (block instanceof Block.Approval approval) {
            approval.ticks().forEach(tick -> paragraph("[ ] " + tick));
            approval.lines().forEach(caption -> line("\n" + "_".repeat(30) + "  " + SafeText.of(caption)));
        }
    }

    private void line(String text) {
        out.append(text.stripTrailing()).append('\n');
    }

    private void paragraph(String text) {
        wrapped(SafeText.of(text), WIDTH).forEach(this::line);
    }

    /** Breaks a text at blanks; words longer than a line are cut. */
    static List<String> wrapped(String text, int width) {
        List<String> lines = new ArrayList<>();
        StringBuilder current = new StringBuilder();
        for (String word : text.split(" ")) {
            String rest = word;
            if (!current.isEmpty() && current.length() + 1 + rest.length() > width) {
                lines.add(current.toString());
                current.setLength(0);
            }
            while (rest.length() > width) {
                lines.add(rest.substring(0, width));
                rest = rest.substring(width);
            }
            current.append(current.isEmpty() ? "" : " ").append(rest);
        }
        lines.add(current.toString());
        return lines;
    }

    private void table(Block.Table table) {
        int columns = table.columns().size();
        int[] widths = new int[columns];
        for (int i = 0; i < columns; i++) {
            widths[i] = Math.max(3, (int) Math.floor(table.widths()[i] * (WIDTH - 2 * (columns - 1))));
        }
        line("");
        if (table.columns().stream().anyMatch(title -> !title.isEmpty())) {
            row(table.columns(), widths);
            line("-".repeat(WIDTH));
        }
        table.rows().forEach(row -> row(row, widths));
    }

    private void row(List<String> cells, int[] widths) {
        List<List<String>> parts = new ArrayList<>();
        int height = 1;
        for (int i = 0; i < cells.size(); i++) {
            parts.add(wrapped(SafeText.of(cells.get(i)), widths[i]));
            height = Math.max(height, parts.get(i).size());
        }
        for (int k = 0; k < height; k++) {
            StringBuilder text = new StringBuilder();
            for (int i = 0; i < cells.size(); i++) {
                String cell = k < parts.get(i).size() ? parts.get(i).get(k) : "";
                text.append(cell).append(" ".repeat(Math.max(0, widths[i] - cell.length()) + 2));
            }
            line(text.toString());
        }
    }
}
