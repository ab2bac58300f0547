package sectorglass.recovery;

/**
 * What the checks that structures carry said of sectors which were read in several copies and differ, after the quick checks decided nothing. Counts of
 * sectors.
 *
 * @param decided one copy's structures hold, another's fail
 * @param bothHold different bytes hold in several copies
 * @param allFail the structures hold in no copy
 * @param unchecked no structure with a check of its own stands there: content of files, mostly
 * @param notLooked left out since the time for it was over
 */
public record Disputes(long decided, long bothHold, long allFail, long unchecked, long notLooked) {

    /** Sectors on which nothing decides. */
    public long open() {
        return bothHold + allFail + unchecked + notLooked;
    }
}
