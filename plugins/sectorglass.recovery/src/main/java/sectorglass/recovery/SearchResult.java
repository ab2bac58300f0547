package sectorglass.recovery;

import java.util.List;
import java.util.Optional;

import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/**
 * What a search for lost structures found.
 *
 * @param bytes of the image
 * @param sectorSize bytes per sector
 * @param searched image bytes from 0 that were looked at: less than {@code bytes} if it was stopped
 * @param unread sectors among them that were not read and could not be looked at, joined to runs; the most at their largest
 * @param unreadSectors number of all of them
 * @param candidates by address
 * @param volumes by first byte
 * @param leftOut candidates that were met but not kept because there were too many of their kind
 * @param remarks what a person should know before believing it
 */
public record SearchResult(long bytes, int sectorSize, long searched, List<SectorRange> unread, long unreadSectors, List<Candidate> candidates,
        List<FoundVolume> volumes, long leftOut, List<FoundReason> remarks) {

    /** Lists are kept as unchangeable. */
    public SearchResult {
        unread = List.copyOf(unread);
        candidates = List.copyOf(candidates);
        volumes = List.copyOf(volumes);
        remarks = List.copyOf(remarks);
    }

    /** Whether the whole image was looked at. */
    public boolean complete() {
        return searched >= bytes;
    }

    /** The unread places as a set. */
    public SectorRanges unreadRanges() {
        return SectorRanges.of(unread);
    }

    /** A candidate by its number. */
    public Optional<Candidate> candidate(int number) {
        return number < 1 || number > candidates.size() ? Optional.empty() : Optional.of(candidates.get(number - 1));
    }

    /** Volumes that may stand in a partition map, by first byte. */
    public List<FoundVolume> proven() {
        return volumes.stream().filter(FoundVolume::proven).toList();
    }

    /** Candidates of a kind: gpt, mbr, ebr, ntfs … */
    public List<Candidate> ofKind(String kind) {
        return candidates.stream().filter(c -> c.sighting().kind().equals(kind)).toList();
    }
}
