package sectorglass.recovery;

import java.util.List;

import sectorglass.disk.Sighting;
import sectorglass.image.ByteRange;

/**
 * A structure that a search found, and what the rest of the disk says of it.
 *
 * @param number counted from 1, by address
 * @param sighting the structure itself: kind, place, decoded facts, evidence, votes
 * @param volume number of the {@link FoundVolume} it was counted to, or 0
 * @param state present, leftover or part of a file
 * @param file where it lies inside a known file, or null
 * @param confidence 1 to 99
 * @param reasons keys of texts, strongest first
 */
public record Candidate(int number, Sighting sighting, int volume, FoundState state, InsideFile file, int confidence, List<String> reasons) {

    /** Its bytes. */
    public ByteRange where() {
        return sighting.where();
    }

    /** LBA of its first byte. */
    public long lba(int sectorSize) {
        return sighting.where().start() / sectorSize;
    }
}
