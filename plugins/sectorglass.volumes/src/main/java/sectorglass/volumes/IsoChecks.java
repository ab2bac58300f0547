package sectorglass.volumes;

import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Outcome;

/** Judges ISO 9660 descriptors: numbers in both byte orders agree. Source: ECMA-119, 7.2.3 and 7.3.3. */
final class IsoChecks {
    private static final int[] FOURS = {80, 132, 158, 166};
    private static final int[] TWOS = {120, 124, 128};

    private IsoChecks() {
    }

    static void check(VolumeSite site, Checks all) {
        for (IsoDescriptor descriptor : IsoDescriptor.list(site)) {
            if (descriptor.type() != 1 && descriptor.type() != 2) {
                continue;
            }
            VolumeHeader header = new VolumeHeader(site, descriptor.at(), 2048);
            all.in(header.whole()).check("iso.both-endian", header.range(80, 100), () -> {
                Window w = header.window();
                for (int at : FOURS) {
                    if (w.u32le(at) != w.u32be(at + 4)) {
                        return Outcome.failed(w.u32le(at), w.u32be(at + 4)).at(header.range(at, 8)).with("offset", at);
                    }
                }
                for (int at : TWOS) {
                    if (w.u16le(at) != w.u16be(at + 2)) {
                        return Outcome.failed(w.u16le(at), w.u16be(at + 2)).at(header.range(at, 4)).with("offset", at);
                    }
                }
                return Outcome.passed();
            });
        }
    }
}
