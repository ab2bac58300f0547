package sectorglass.disk;

/** How much a check reads. */
public enum Level {
    /** Headers and what they point at; answers at once. */
    QUICK,
    /** Every record and every cluster map. */
    FULL
}
