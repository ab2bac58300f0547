package sectorglass.disk;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.OptionalLong;

/** Where a structure that was met somewhere belongs, by the volumes of the disk as it was surveyed. */
final class PartHomes {
    /** Records before it have a mirror that bears the same numbers (ntfs.h of the Linux kernel: MFT_REC_RESERVED 11, MFT_REC_FREE 16). */
    private static final long FIRST_ALONE = 16;
    private static final int FIELD = 2;
    /** A volume may be smaller than its partition by less than a mebibyte, to which partitions are aligned (common practice, no source). */
    private static final int SLACK = 1 << 20;
    private static final long MOST_SECTORS = Long.MAX_VALUE >> 13;

    private final List<Volume> volumes = new ArrayList<>();
    private final List<Partition> empty;
    private final int sectorSize;

    PartHomes(Disk disk) {
        sectorSize = disk.image().sectorSize();
        empty = disk.partitions().stream().filter(p -> p.placed() && p.volume() == null && p.range().end() < MOST_SECTORS).toList();
        disk.partitions().stream().filter(Partition::placed).map(Partition::volume).filter(Objects::nonNull).forEach(volumes::add);
        if (disk.volume() != null) {
            volumes.add(disk.volume());
        }
    }

    /** Image byte where it belongs; nothing where no volume or partition tells, or two do. */
    OptionalLong of(Sighting seen, long found) {
        if (seen.facts().get("myLba") instanceof Long mine && seen.facts().get("sectorSize") instanceof Long size
                && seen.evidence().stream().anyMatch(e -> e.reason() == Sighting.Reason.CHECKSUM_HOLDS)) {
            return OptionalLong.of(mine * size); // the finder bounds both
        }
        Volume home = null;
        for (Volume volume : volumes) {
            boolean own = volume.info().kind().equals(seen.kind()) && (seen.identity() == null || seen.identity().equalsIgnoreCase(volume.info().serial())
                    || seen.identity().equalsIgnoreCase(volume.info().uuid()));
            if (own && home != null) {
                return OptionalLong.empty();
            }
            home = own ? volume : home;
        }
        if (home != null && seen.facts().get("firstNumber") instanceof Number number) {
            return number.longValue() < FIRST_ALONE ? OptionalLong.empty() : home.address("record", number.longValue());
        }
        Sighting.Vote vote = seen.votes().stream().filter(v -> v.weight() >= FIELD).findFirst().orElse(null);
        if (vote == null || seen.votes().stream().anyMatch(v -> v.weight() >= FIELD && v.firstByte() != vote.firstByte())) {
            return OptionalLong.empty();
        }
        OptionalLong start = home != null ? OptionalLong.of(home.site().firstByte()) : partition(vote.bytes());
        return start.isPresent() ? OptionalLong.of(start.getAsLong() + found - vote.firstByte()) : start;
    }

    /** Start of the only partition of this size in which no volume was recognised. */
    private OptionalLong partition(long bytes) {
        List<Partition> fitting = empty.stream().filter(p -> bytes > 0 && bytes <= p.range().count() * sectorSize
                && p.range().count() * sectorSize - bytes < SLACK).toList();
        return fitting.size() == 1 ? OptionalLong.of(fitting.get(0).range().first() * sectorSize) : OptionalLong.empty();
    }
}
