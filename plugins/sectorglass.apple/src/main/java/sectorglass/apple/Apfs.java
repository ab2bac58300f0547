package sectorglass.apple;

import java.util.List;

import sectorglass.disk.Volume;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** Makes the volume of an APFS container superblock. Source: Apple File System Reference by way of apfsprogs (linux-apfs). */
final class Apfs {

    private Apfs() {
    }

    /** @param at byte of the superblock to start from */
    static Volume open(VolumeSite site, long at) {
        Window w = site.window(at, 4096);
        Facts facts = new Facts();
        Facts.known(() -> {
            facts.uuid = Facts.uuid(w, 0x48);
            facts.clusterBytes = w.u32le(0x24);
            return facts.bytes = Facts.product(w.u64le(0x28), w.u32le(0x24));
        });
        if (at != 0) {
            facts.remarks.add("read from the container superblock at byte " + at);
        }
        return new HeaderVolume(facts.info("apfs", site), site, List.of(), List.of(), (level, out) -> { });
    }
}
