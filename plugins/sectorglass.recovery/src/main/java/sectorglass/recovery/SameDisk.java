package sectorglass.recovery;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

import sectorglass.disk.Disk;
import sectorglass.disk.MapVerdict;
import sectorglass.disk.Partition;
import sectorglass.disk.PartitionMap;
import sectorglass.disk.VolumeInfo;
import sectorglass.image.SectorImage;

/**
 * Whether copies are of one disk in one state, judged by identities and by the share of agreeing sectors. Common practice, no source.
 *
 * @param answer the judgement
 * @param reasons in words, at least one
 * @param agreeing share of the sectors read in several copies that are the same in all, 0 to 1; NaN where none was read twice
 */
public record SameDisk(Answer answer, List<String> reasons, double agreeing) {
    /** Below this share of agreeing sectors the copies are not taken for passes over one disk in one state. */
    private static final double ENOUGH = 0.98;

    /** The judgement. */
    public enum Answer {
        /** Nothing speaks against it, and something for it. */
        SAME,
        /** Identities that only one disk can have differ. */
        DIFFERENT_DISKS,
        /** Same identities, but too many sectors differ: the disk was used between the passes, or one copy was written to. */
        DIFFERENT_STATES,
        /** Too little was read of both to tell. */
        UNKNOWN
    }

    /**
     * Judges copies from their surveys and their comparison.
     *
     * @param verdicts per copy one verdict per map: the identity of a map that fails its own checks proves nothing
     */
    public static SameDisk judge(List<Disk> disks, List<List<MapVerdict>> verdicts, CopyComparison comparison) {
        List<String> reasons = new ArrayList<>();
        boolean shared = false;
        Set<String> first = identities(disks.get(0), verdicts.get(0));
        for (int i = 1; i < disks.size(); i++) {
            Set<String> other = identities(disks.get(i), verdicts.get(i));
            for (String identity : first) {
                String kind = identity.substring(0, identity.indexOf(' '));
                if (other.contains(identity)) {
                    shared = true;
                    reasons.add("copies 1 and " + (i + 1) + " share " + identity);
                } else if (other.stream().anyMatch(o -> o.startsWith(kind + " "))) {
                    String theirs = other.stream().filter(o -> o.startsWith(kind + " ")).findFirst().orElseThrow();
                    return new SameDisk(Answer.DIFFERENT_DISKS,
                            List.of("copy 1 has " + identity + ", copy " + (i + 1) + " has " + theirs), share(comparison));
                }
            }
        }
        double share = share(comparison);
        if (Double.isNaN(share)) {
            return new SameDisk(shared ? Answer.SAME : Answer.UNKNOWN, shared ? reasons : List.of("no sector was read in two copies"), share);
        }
        String sectors = String.format(java.util.Locale.ROOT, "%.2f %% of the sectors read in several copies agree", share * 100);
        if (share < ENOUGH) {
            return new SameDisk(shared ? Answer.DIFFERENT_STATES : Answer.UNKNOWN, List.of(sectors), share);
        }
        reasons.add(sectors);
        SectorImage image = disks.get(0).image();
        if (!shared && comparison.agree().count() * image.sectorSize() < 1 << 20) {
            return new SameDisk(Answer.UNKNOWN, List.of("no identity is shared and less than 1 MiB was read twice"), share);
        }
        return new SameDisk(Answer.SAME, List.copyOf(reasons), share);
    }

    private static double share(CopyComparison comparison) {
        double agree = comparison.agree().count();
        double differ = comparison.differ().count();
        return agree / (agree + differ);
    }

    /** Identities as "kind value"; the kind names the place, so that like is compared with like. */
    private static Set<String> identities(Disk disk, List<MapVerdict> verdicts) {
        Set<String> all = new HashSet<>();
        for (int i = 0; i < disk.maps().size(); i++) {
            PartitionMap map = disk.maps().get(i).map();
            if (!map.leftover() && map.id() != null && !Boolean.FALSE.equals(verdicts.get(i).consistent())) {
                all.add(map.kind() + "-id " + map.id());
            }
        }
        for (Partition partition : disk.partitions()) {
            if (partition.volume() != null) {
                volume(all, "partition-" + partition.range().first(), partition.volume().info());
            }
        }
        if (disk.volume() != null) {
            volume(all, "volume", disk.volume().info());
        }
        return all;
    }

    private static void volume(Set<String> all, String place, VolumeInfo info) {
        if (info.serial() != null) {
            all.add(place + "-serial " + info.serial());
        }
        if (info.uuid() != null) {
            all.add(place + "-uuid " + info.uuid());
        }
    }
}
