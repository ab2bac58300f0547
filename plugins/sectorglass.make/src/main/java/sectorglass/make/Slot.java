package sectorglass.make;

/** Where an MBR keeps a partition. */
public enum Slot {
    /** One of the four entries in LBA 0. */
    PRIMARY,
    /** The entry in LBA 0 that holds the logical partitions; its first sector is the first extended boot record. */
    CONTAINER,
    /** In an extended boot record. */
    LOGICAL
}
