package sectorglass.exfat;

/**
 * How an exFAT volume was recognised.
 *
 * @param source region that gave the layout
 * @param main boot sector at the start of the site, read or not
 * @param layout boot sector that gave the layout; {@code main}, or the backup's
 * @param geometry the layout, or null where the boot sector is damaged and no backup helps
 * @param confidence for the claim
 * @param reason in words
 */
record Found(Source source, BootSector main, BootSector layout, Geometry geometry, int confidence, String reason) {

    /** Where the layout comes from. */
    enum Source {
        /** The main boot region. */
        MAIN,
        /** The backup boot region at sector 12. */
        BACKUP,
        /** FAT, bitmap, up-case table and root directory; both boot regions are lost. */
        STRUCTURES
    }
}
