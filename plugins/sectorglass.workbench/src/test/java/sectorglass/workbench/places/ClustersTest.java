package sectorglass.workbench.places;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.OptionalLong;

import org.junit.jupiter.api.Test;

import sectorglass.disk.Disk;
import sectorglass.disk.Level;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeInfo;
import sectorglass.disk.VolumeSite;
import sectorglass.verify.Checks;
import sectorglass.workbench.model.Zeros;

class ClustersTest {
    private static final long BASE = 63 * 512L;
    private static final Zeros IMAGE = new Zeros(1 << 20);

    /** Clusters of 4096 bytes from number 2 on, as FAT counts (Microsoft FAT specification, 2005-08-30, section 3.5), ten of them. */
    private static final class Volumes implements Volume {
        @Override
        public VolumeInfo info() {
            return new VolumeInfo("fat16", null, null, null, null, null, 4096L, null, null, null, List.of());
        }

        @Override
        public VolumeSite site() {
            return new VolumeSite(IMAGE, IMAGE.all(), null);
        }

        @Override
        public List<Structure> structures() {
            return List.of();
        }

        @Override
        public void check(Level level, Checks out) {
            // nothing to judge
        }

        @Override
        public OptionalLong address(String kind, long target) {
            return kind.equals("cluster") && target >= 2 && target < 12 ? OptionalLong.of(BASE + (target - 2) * 4096) : OptionalLong.empty();
        }
    }

    @Test
    void clustersAreCountedFromTheirFirstNumber() {
        Clusters.Finder clusters = new Clusters.Finder(new Disk(IMAGE, List.of(), List.of(), new Volumes()));
        assertEquals(OptionalLong.of(2), clusters.beginning(BASE));
        assertEquals(OptionalLong.of(5), clusters.beginning(BASE + 3 * 4096));
        assertEquals(OptionalLong.empty(), clusters.beginning(BASE + 512), "inside a cluster");
        assertEquals(OptionalLong.empty(), clusters.beginning(BASE + 10 * 4096), "behind the last one");
        assertEquals(OptionalLong.empty(), clusters.beginning(BASE - 4096), "before the first one");
        assertEquals(OptionalLong.of(2), clusters.at(0).orElseThrow().holding(BASE + 4095));
    }

    @Test
    void withoutAVolumeThereAreNone() {
        assertEquals(OptionalLong.empty(), new Clusters.Finder(new Disk(IMAGE, List.of(), List.of(), null)).beginning(0));
    }
}
