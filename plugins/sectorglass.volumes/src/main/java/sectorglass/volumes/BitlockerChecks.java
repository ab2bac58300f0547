package sectorglass.volumes;

import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Judges what BitLocker's boot record and metadata blocks say of each other. Source: cryptsetup, lib/bitlk; libblkid (util-linux). */
final class BitlockerChecks {

    private BitlockerChecks() {
    }

    static void check(VolumeSite site, Bitlocker.Offsets offsets, Checks all) {
        VolumeHeader boot = new VolumeHeader(site, 0, 512);
        for (long at : offsets.blocks()) {
            if (!Bitlocker.legal(site, at)) {
                all.in(boot.whole()).report("bde.offsets-agree", boot.range(offsets.at(), 24),
                        Outcome.failed("metadata block at byte " + at, "inside the volume, a multiple of 64"));
                continue;
            }
            VolumeHeader block = new VolumeHeader(site, at, 512);
            Checks out = all.in(block.whole());
            Mark magic = out.check("bde.signature", block.range(0, 8), () -> Outcome.test(
                    block.window().matches(0, BitlockerVolumes.MAGIC), block.window().ascii(0, 8).replaceAll("[^ -~]", "?"),
                    BitlockerVolumes.MAGIC));
            if (magic.passed() && offsets.blocks().size() == 3) {
                out.check("bde.offsets-agree", block.range(32, 24), () -> {
                    Window w = block.window();
                    for (int i = 0; i < 3; i++) {
                        if (w.u64le(32 + 8 * i) != offsets.blocks().get(i)) {
                            return Outcome.failed(w.u64le(32 + 8 * i), offsets.blocks().get(i)).at(block.range(32 + 8 * i, 8));
                        }
                    }
                    return Outcome.passed();
                });
            }
        }
    }
}
