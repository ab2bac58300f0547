package sectorglass.ntfs;

/**
 * Which sector gave the measures of a volume.
 *
 * @param geometry the measures
 * @param byteFound image byte of the sector they were taken from; where neither boot sector can be used, that of the volume
 * @param backup whether the first sector cannot be used
 */
record BootFound(Geometry geometry, long byteFound, boolean backup) {

    /** Whether the measures were put together from file records, because neither boot sector can be used. */
    boolean fromRecords() {
        return backup && byteFound == geometry.firstByte();
    }
}
