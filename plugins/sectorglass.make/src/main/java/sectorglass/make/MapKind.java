package sectorglass.make;

/** The partition map that a disk is given. */
public enum MapKind {
    /** None: the whole disk is one volume, or empty. */
    NONE,
    /** Classic MBR, with a chain of extended boot records where there are logical partitions. */
    MBR,
    /** GPT with a protective MBR (UEFI 2.10, sections 5.2.3 and 5.3). */
    GPT,
    /** GPT whose MBR mirrors some of its partitions; not defined by UEFI, but met in the field. */
    GPT_HYBRID
}
