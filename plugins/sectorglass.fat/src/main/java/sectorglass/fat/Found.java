package sectorglass.fat;

/**
 * How a FAT volume was recognised.
 *
 * @param source which sector gave the layout
 * @param main the boot sector at the start of the site, read or not
 * @param layout the boot sector that gave the layout: {@code main}, the backup, or null where the layout is guessed or not known
 * @param layoutByte byte of {@code layout} from the start of the site
 * @param geometry the layout, or null where nothing gives one
 * @param confidence for the claim
 * @param reason in words
 */
record Found(Source source, BootSector main, BootSector layout, long layoutByte, Geometry geometry, int confidence, String reason) {

    /** Where the layout comes from. */
    enum Source {
        /** The boot sector. */
        MAIN,
        /** The backup boot sector; the main one is unread or damaged. */
        BACKUP,
        /** Inferred from the FAT copies and directories. */
        GUESS
    }
}
