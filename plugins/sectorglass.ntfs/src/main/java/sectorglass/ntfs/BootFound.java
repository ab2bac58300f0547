package sectorglass.ntfs;

/**
 * Which sector gave the measures of a volume.
 *
 * @param geometry the measures
 * @param byteFound image byte of the sector they were taken from
 * @param backup whether that is the copy, because the first sector cannot be used
 */
record BootFound(Geometry geometry, long byteFound, boolean backup) { }
