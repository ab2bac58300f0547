package sectorglass.recovery;

import java.time.Instant;
import java.util.List;
import java.util.Optional;

import sectorglass.disk.Sighting;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorRange;

/**
 * A volume that candidates agree on.
 *
 * @param number counted from 1, by first byte
 * @param kind ntfs … md
 * @param firstByte image byte of its first byte; may be negative where the start of the disk was lost
 * @param bytes its size as it says itself, or {@link Sighting#UNKNOWN}
 * @param partitionBytes size a partition for it needs, with what stands after the volume's own end (the backup boot sector of NTFS);
 *     {@link Sighting#UNKNOWN} where the size is not known
 * @param label its label, or null
 * @param identity serial number or UUID, or null
 * @param latest latest date met in its structures, or null
 * @param candidates numbers of the candidates it stands on
 * @param votes for this start and size
 * @param against votes of the same candidates for another start or size
 * @param state present, leftover, in a file
 * @param file the file that holds it, or null
 * @param partition number of the listed partition that has exactly this start, or 0
 * @param checks verdicts of the volume's own quick checks at this place
 * @param overwritten bytes of it that other present structures lie over
 * @param confidence 1 to 99
 * @param reasons with their values, for people
 */
public record FoundVolume(int number, String kind, long firstByte, long bytes, long partitionBytes, String label, String identity, Instant latest,
        List<Integer> candidates, List<Sighting.Vote> votes, List<Sighting.Vote> against, FoundState state, InsideFile file, int partition,
        Checked checks, List<ByteRange> overwritten, int confidence, List<FoundReason> reasons) {

    /**
     * How the volume's own checks came out when it was opened at this place.
     *
     * @param opened whether its provider recognised it there
     * @param passed number of passed checks
     * @param failed ids of failed rules worse than cosmetic
     * @param notChecked number of checks that unread sectors prevented
     */
    public record Checked(boolean opened, int passed, List<String> failed, int notChecked) { }

    /** Lists are kept as unchangeable. */
    public FoundVolume {
        candidates = List.copyOf(candidates);
        votes = List.copyOf(votes);
        against = List.copyOf(against);
        overwritten = List.copyOf(overwritten);
        reasons = List.copyOf(reasons);
    }

    /** The sectors of a partition for it; empty where the size is unknown, or it does not start at a sector of the image. */
    public Optional<SectorRange> sectors(int sectorSize) {
        if (partitionBytes <= 0 || firstByte < 0 || firstByte % sectorSize != 0) {
            return Optional.empty();
        }
        return Optional.of(new SectorRange(firstByte / sectorSize, (partitionBytes + sectorSize - 1) / sectorSize));
    }

    /** Whether it may stand in a partition map: present, its start and size known, its own checks pass there. */
    public boolean proven() {
        return state == FoundState.PRESENT && checks.opened() && firstByte >= 0 && partitionBytes > 0 && confidence >= 70;
    }
}
