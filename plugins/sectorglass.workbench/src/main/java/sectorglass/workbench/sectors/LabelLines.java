package sectorglass.workbench.sectors;

/**
 * Finds room for labels under a row. Each label begins under its bracket; where it has no room before its right neighbour it goes a
 * line lower and a leader joins it to the bracket. No label crosses another one or a leader.
 */
final class LabelLines {

    private LabelLines() {
    }

    /**
     * Result: the line of each label and the width it may take; a line of -1 means that there is no room.
     */
    record Placed(int[] line, int[] width, int lines) { }

    /**
     * Places labels.
     *
     * @param x left edges, ascending
     * @param width widths wanted
     * @param right right edge of the row
     * @param maxLines lines there may be
     * @param least narrowest width worth drawing
     */
    static Placed place(int[] x, int[] width, int right, int maxLines, int least) {
        int n = x.length;
        int[] line = new int[n];
        int[] granted = new int[n];
        // free[k]: the nearest left edge, to the right of the label in hand, of a label on line k or below
        int[] free = new int[maxLines];
        java.util.Arrays.fill(free, right);
        int used = 0;
        for (int i = n - 1; i >= 0; i--) {
            int chosen = -1;
            int room = 0;
            for (int k = 0; k < maxLines; k++) {
                int here = free[k] - x[i];
                if (here >= width[i]) {
                    chosen = k;
                    room = width[i];
                    break;
                }
                if (here > room) {
                    chosen = k;
                    room = here;
                }
            }
            if (chosen < 0 || room < Math.min(least, width[i])) {
                line[i] = -1;
                continue;
            }
            line[i] = chosen;
            granted[i] = room;
            used = Math.max(used, chosen + 1);
            for (int k = 0; k <= chosen; k++) {
                free[k] = Math.min(free[k], x[i]);
            }
        }
        return new Placed(line, granted, used);
    }
}
