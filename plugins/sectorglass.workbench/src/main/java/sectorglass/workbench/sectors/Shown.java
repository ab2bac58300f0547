package sectorglass.workbench.sectors;

import sectorglass.workbench.places.Offsets;

/**
 * What a person chose of the looks of the sectors.
 *
 * @param density how much gloss there is
 * @param text how bytes are shown as text
 * @param columns bytes per row, 8 to 64; others are clamped
 * @param offsets what the places beside the rows are counted from
 * @param hex whether bytes in places are hexadecimal
 */
public record Shown(Density density, TextColumn text, int columns, Offsets offsets, boolean hex) {
    /** What is shown until somebody chooses. */
    public static final Shown DEFAULT = new Shown(Density.GLOSSED, TextColumn.ASCII, 16, Offsets.LBA, true);

    /** Columns are clamped. */
    public Shown {
        columns = Math.max(8, Math.min(64, columns));
    }

    /** The same with other gloss. */
    public Shown with(Density changed) {
        return new Shown(changed, text, columns, offsets, hex);
    }

    /** The same with other text beside the bytes. */
    public Shown with(TextColumn changed) {
        return new Shown(density, changed, columns, offsets, hex);
    }

    /** The same with other bytes per row. */
    public Shown withColumns(int changed) {
        return new Shown(density, text, changed, offsets, hex);
    }

    /** The same with places counted otherwise. */
    public Shown with(Offsets changed) {
        return new Shown(density, text, columns, changed, hex);
    }

    /** The same with places in other digits. */
    public Shown withHex(boolean changed) {
        return new Shown(density, text, columns, offsets, changed);
    }
}
