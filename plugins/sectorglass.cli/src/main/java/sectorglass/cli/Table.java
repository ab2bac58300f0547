package sectorglass.cli;

import java.io.PrintStream;
import java.util.ArrayList;
import java.util.List;

/** Rows of text in columns as wide as their widest cell; the last column is not padded. */
final class Table {
    private final List<String[]> rows = new ArrayList<>();
    private final boolean[] right;

    /** @param alignment a letter per column: l or r */
    Table(String alignment) {
        right = new boolean[alignment.length()];
        for (int i = 0; i < right.length; i++) {
            right[i] = alignment.charAt(i) == 'r';
        }
    }

    Table row(Object... cells) {
        String[] row = new String[right.length];
        for (int i = 0; i < row.length; i++) {
            row[i] = i < cells.length && cells[i] != null ? cells[i].toString() : "";
        }
        rows.add(row);
        return this;
    }

    void print(PrintStream out, String indent) {
        int[] widths = new int[right.length];
        for (String[] row : rows) {
            for (int i = 0; i < row.length; i++) {
                widths[i] = Math.max(widths[i], width(row[i]));
            }
        }
        for (String[] row : rows) {
            StringBuilder line = new StringBuilder(indent);
            for (int i = 0; i < row.length; i++) {
                String pad = " ".repeat(widths[i] - width(row[i]));
                line.append(right[i] ? pad + row[i] : row[i] + pad).append("  ");
            }
            out.println(line.toString().stripTrailing());
        }
    }

    private static int width(String text) {
        return text.codePointCount(0, text.length());
    }
}
