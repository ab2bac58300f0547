package sectorglass.volumes;

import java.nio.charset.StandardCharsets;
import java.util.List;

import sectorglass.disk.HeaderVolume;
import sectorglass.disk.Role;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Outcome;

/** Makes the volume of a swap header. */
final class SwapVolume {

    private SwapVolume() {
    }

    static Volume open(VolumeSite site, SwapVolumes.Found found) {
        Window w = site.window(1024, 512);
        VolumeFacts facts = new VolumeFacts();
        if (found.version() == 1) {
            VolumeFacts.known(() -> {
                long last = lastPage(w, found);
                facts.clusterBytes = (long) found.page();
                facts.bytes = VolumeFacts.product(last + 1, found.page());
                facts.uuid = VolumeFacts.uuid(w, 12);
                return facts.label = VolumeFacts.text(w, 28, 16, StandardCharsets.UTF_8);
            });
            facts.remarks.add(found.bigEndian() ? "big endian" : "little endian");
        } else {
            facts.remarks.add("version 0, without label and size");
        }
        if (found.hibernation()) {
            facts.remarks.add("holds a hibernation image");
        }
        List<Role> roles = List.of(Role.of(Role.Kind.SWAP, found.hibernation() ? "hibernation image" : "swap header"));
        VolumeHeader header = new VolumeHeader(site, 1024, Math.max(512, found.page() - 1024 - 10));
        return new HeaderVolume(facts.info("swap", site), site, found.version() == 1 && !found.bigEndian()
                ? List.of(header.structure("swap header", "swap_header")) : List.of(), roles, (level, out) -> {
                    if (found.version() == 1) {
                        check(site, found, out);
                    }
                });
    }

    private static void check(VolumeSite site, SwapVolumes.Found found, Checks all) {
        VolumeHeader header = new VolumeHeader(site, 1024, 512);
        long pages = site.bytes() / found.page();
        all.in(header.whole()).check("swap.size", header.range(4, 4), () -> {
            long last = lastPage(header.window(), found);
            return Outcome.test(last > 0 && last < pages, last, "1 to " + (pages - 1));
        });
    }

    /** Number of the last page, from the header. */
    static long lastPage(Window header, SwapVolumes.Found found) {
        return found.bigEndian() ? header.u32be(4) : header.u32le(4);
    }
}
