package sectorglass.workbench.places;

import java.util.Locale;

import sectorglass.workbench.look.Texts;

/** What the place beside a row of bytes is counted from. */
public enum Offsets {
    /** Sector and byte in the sector. */
    LBA,
    /** Byte of the image. */
    IMAGE,
    /** Number of the partition and byte in it. */
    PARTITION,
    /** Byte in the structure that explains the row. */
    STRUCTURE;

    /** The choice in words, for menus. */
    public String words() {
        return Texts.of("offsets." + name().toLowerCase(Locale.ROOT));
    }

    /** What stands above the places. */
    String heading() {
        return Texts.of("offsets.heading." + name().toLowerCase(Locale.ROOT));
    }
}
