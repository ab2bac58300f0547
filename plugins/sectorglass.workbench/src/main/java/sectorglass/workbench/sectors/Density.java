package sectorglass.workbench.sectors;

/** How much of the meaning stands between the rows. */
public enum Density {
    /** Bytes alone. */
    BYTES,
    /** A line under each field. */
    MARKED,
    /** A bracket under each field, with its name and value. */
    GLOSSED;

    /** The next one, in the order of the key that cycles through them. */
    public Density next() {
        return values()[(ordinal() + 1) % values().length];
    }
}
