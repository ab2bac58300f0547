package sectorglass.workbench.sectors;

/**
 * Maps rows, of which there may be more than an int can count, to the positions of a scroll bar.
 *
 * @param rows all rows, at least 1
 * @param page rows seen at once, at least 1
 */
public record Scroll(long rows, int page) {
    /** Positions that a scroll bar may have. */
    private static final int POSITIONS = 1_000_000;

    /** Highest top row. */
    public long last() {
        return Math.max(0, rows - page);
    }

    /** Value for the scroll bar's maximum. */
    public int maximum() {
        return (int) Math.min(POSITIONS, rows) + (rows > POSITIONS ? thumb() : 0);
    }

    /** Size of the thumb. */
    public int thumb() {
        return rows <= POSITIONS ? (int) Math.min(page, rows) : Math.max(1, POSITIONS / 200);
    }

    /** The position that shows this top row. */
    public int position(long top) {
        if (rows <= POSITIONS) {
            return (int) Math.min(top, last());
        }
        return (int) Math.round((double) Math.min(top, last()) / last() * POSITIONS);
    }

    /** The top row that a position stands for; both ends are exact. */
    public long top(int position) {
        if (rows <= POSITIONS) {
            return Math.max(0, Math.min(position, last()));
        }
        if (position >= POSITIONS) {
            return last();
        }
        return Math.max(0, (long) ((double) position / POSITIONS * last()));
    }
}
