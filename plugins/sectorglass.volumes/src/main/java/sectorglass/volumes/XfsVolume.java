package sectorglass.volumes;

import java.nio.charset.StandardCharsets;
import java.util.List;

import sectorglass.disk.Volume;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** Makes the volume of an XFS superblock. */
final class XfsVolume {

    private XfsVolume() {
    }

    /** @param at byte of the superblock to believe, from the start of the site */
    static Volume open(VolumeSite site, long at) {
        Window w = site.window(at, 512);
        Facts facts = new Facts();
        Facts.known(() -> {
            long block = w.u32be(4);
            facts.clusterBytes = block;
            facts.bytes = Facts.product(w.u64be(8), block);
            facts.label = Facts.text(w, 108, 12, StandardCharsets.UTF_8);
            facts.uuid = Facts.uuid(w, 32);
            if (at == 0) {
                facts.usedBytes = Facts.product(w.u64be(8) - w.u64be(144), block);
                if (w.u8(126) != 0) {
                    facts.remarks.add("making of the volume did not finish");
                }
            } else {
                facts.remarks.add("read from the superblock of allocation group 1");
            }
            return true;
        });
        return new HeaderVolume(facts.info("xfs", site), site, List.of(), List.of(), (level, out) -> { });
    }
}
