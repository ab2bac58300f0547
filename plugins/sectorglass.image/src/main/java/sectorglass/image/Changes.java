package sectorglass.image;

/**
 * What a refresh found.
 *
 * @param bytesBefore length of the image before
 * @param bytesNow length of the image now
 * @param gained sectors that are read now and were not before
 * @param changed all sectors whose state is another one now, {@code gained} among them: what was decoded from them is to be decoded anew
 */
public record Changes(long bytesBefore, long bytesNow, SectorRanges gained, SectorRanges changed) {

    /** Whether nothing is different. */
    public boolean isEmpty() {
        return bytesBefore == bytesNow && changed.isEmpty();
    }

    static Changes between(OpenImage.Now before, OpenImage.Now after, int sectorSize) {
        long bytesBefore = before.stored().length();
        long bytesNow = after.stored().length();
        if (before == after) {
            return new Changes(bytesBefore, bytesNow, SectorRanges.EMPTY, SectorRanges.EMPTY);
        }
        SectorRange all = new SectorRange(0, Math.max(bytesBefore, bytesNow) / sectorSize);
        SectorRanges changed = SectorRanges.EMPTY;
        SectorRanges gained = SectorRanges.EMPTY;
        for (ReadState state : ReadState.values()) {
            SectorRanges now = after.inState(state, all, sectorSize).minus(before.inState(state, all, sectorSize));
            changed = changed.union(now);
            gained = state == ReadState.READ ? now : gained;
        }
        return new Changes(bytesBefore, bytesNow, gained, changed);
    }
}
