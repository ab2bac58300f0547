package sectorglass.recovery;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Sighting;
import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;

/** A volume while it is put together. */
final class VolumeDraft {
    final int family;
    final long firstByte;
    final List<Sighting> sightings = new ArrayList<>();
    /** Maps with an entry that starts here. */
    final List<Sighting> maps = new ArrayList<>();
    final List<Sighting.Vote> votes = new ArrayList<>();
    final List<Sighting.Vote> against = new ArrayList<>();
    final List<FoundReason> reasons = new ArrayList<>();
    final List<ByteRange> overwritten = new ArrayList<>();
    String kind;
    String identity;
    String label;
    Instant latest;
    /** Bytes a partition for it needs, or {@link Sighting#UNKNOWN}. */
    long partitionBytes = Sighting.UNKNOWN;
    long bytes = Sighting.UNKNOWN;
    /** Where its provider recognised it, or null; opened volumes are not kept, since each holds some memory. */
    VolumeSite site;
    boolean container;
    int partition;
    FoundVolume.Checked checks = new FoundVolume.Checked(false, 0, List.of(), 0);
    FoundState state = FoundState.PRESENT;
    InsideFile file;

    VolumeDraft(int family, long firstByte) {
        this.family = family;
        this.firstByte = firstByte;
    }

    /** The bytes it fills; those of its structures where its size is not known. */
    ByteRange range() {
        long start = Math.max(0, firstByte);
        long end = firstByte + partitionBytes;
        if (partitionBytes <= 0 || end <= start) {
            end = start;
            for (Sighting one : sightings) {
                if (one.where().start() >= start) {
                    end = Math.max(end, one.where().end());
                }
            }
        }
        return new ByteRange(start, Math.max(1, end - start));
    }

    /** Number of structures, maps included, that say that it starts here and, where a size is given, has that size. */
    long voices(long size) {
        return java.util.stream.Stream.concat(sightings.stream(), maps.stream()).filter(s -> s.votes().stream()
                .anyMatch(v -> v.firstByte() == firstByte && (size == Sighting.UNKNOWN || v.bytes() == size))).count();
    }

    boolean sized() {
        return partitionBytes > 0;
    }

    /** Whether the structure that drivers start from stands. */
    boolean hasPrimary() {
        return sightings.stream().anyMatch(s -> s.copy() == Sighting.Copy.PRIMARY);
    }

    /** Confidence before the rest of the disk is asked. */
    int confidence() {
        int best = 0;
        for (Sighting one : sightings) {
            int weight = one.votes().stream().filter(v -> v.firstByte() == firstByte).mapToInt(Sighting.Vote::weight).max().orElse(0);
            best = Math.max(best, weight >= 2 ? one.confidence() : one.confidence() / 2);
        }
        long sorts = sightings.stream().map(s -> s.structure() + s.copy()).distinct().count();
        int sum = best + (int) Math.min(20, 10 * (sorts - 1));
        if (checks.opened()) {
            sum += checks.passed() > 0 && checks.failed().isEmpty() ? 10 : checks.failed().size() > checks.passed() ? -15 : 0;
        } else {
            sum -= 20;
        }
        sum += partition > 0 ? 10 : 0;
        sum -= against.isEmpty() ? 0 : 10;
        return Math.max(1, Math.min(99, sum));
    }
}
