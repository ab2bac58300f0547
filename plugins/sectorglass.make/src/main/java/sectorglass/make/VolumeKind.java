package sectorglass.make;

/** The file systems that can be made. */
public enum VolumeKind {
    /** FAT with 12-bit entries: at most 4084 clusters. */
    FAT12,
    /** FAT with 16-bit entries: 4085 to 65524 clusters. */
    FAT16,
    /** FAT with 32-bit entries: 65525 clusters or more. */
    FAT32,
    /** exFAT 1.00. */
    EXFAT,
    /** NTFS 3.1. */
    NTFS,
    /** ext4 with extents and metadata checksums, without a journal. */
    EXT4
}
