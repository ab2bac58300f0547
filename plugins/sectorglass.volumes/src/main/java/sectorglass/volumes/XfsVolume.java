package sectorglass.volumes;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.HeaderVolume;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** Makes the volume of an XFS superblock. */
final class XfsVolume {
    /** Allocation groups that are listed and checked at once. */
    static final int AT_ONCE = 64;

    private XfsVolume() {
    }

    /** @param at byte of the superblock to believe, from the start of the site */
    static Volume open(VolumeSite site, long at) {
        Window w = site.window(at, 512);
        VolumeFacts facts = new VolumeFacts();
        VolumeFacts.known(() -> {
            long block = w.u32be(4);
            facts.clusterBytes = block;
            facts.bytes = VolumeFacts.product(w.u64be(8), block);
            facts.label = VolumeFacts.text(w, 108, 12, StandardCharsets.UTF_8);
            facts.uuid = VolumeFacts.uuid(w, 32);
            if (at == 0) {
                facts.usedBytes = VolumeFacts.product(w.u64be(8) - w.u64be(144), block);
                if (w.u8(126) != 0) {
                    facts.remarks.add("making of the volume did not finish");
                }
            } else {
                facts.remarks.add("read from the superblock of allocation group 1");
            }
            return true;
        });
        return new HeaderVolume(facts.info("xfs", site), site, structures(site, w), List.of(), new XfsChecks(site, w)::check);
    }

    private static List<Structure> structures(VolumeSite site, Window believed) {
        List<Structure> all = new ArrayList<>();
        all.add(new VolumeHeader(site, 0, 512).structure("superblock of allocation group 0", "xfs_superblock"));
        if (!Boolean.TRUE.equals(VolumeFacts.known(() -> XfsSuperblock.plausible(believed)))) {
            return all;
        }
        all.clear();
        int sector = believed.u16be(102);
        long step = believed.u32be(84) * believed.u32be(4);
        for (int group = 0; group < Math.min(AT_ONCE, believed.u32be(88)); group++) {
            long at = group * step;
            String of = " of allocation group " + group;
            if (at + 4L * sector > site.bytes()) {
                break;
            }
            all.add(new VolumeHeader(site, at, sector).structure("superblock" + of, "xfs_superblock"));
            all.add(new VolumeHeader(site, at + sector, sector).structure("free space header" + of, "xfs_agf"));
            all.add(new VolumeHeader(site, at + 2L * sector, sector).structure("inode header" + of, "xfs_agi"));
            all.add(new VolumeHeader(site, at + 3L * sector, sector).structure("free list" + of, "xfs_agfl"));
        }
        return all;
    }
}
