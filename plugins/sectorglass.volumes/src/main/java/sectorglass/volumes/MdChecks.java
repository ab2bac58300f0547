package sectorglass.volumes;

import sectorglass.disk.VolumeHeader;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Judges an md superblock. Source: libblkid superblock prober for linux_raid (util-linux); sums as mdadm --examine judges them. */
final class MdChecks {

    private MdChecks() {
    }

    static void check(MdSuperblock md, Checks all) {
        int sumAt = md.old() ? 152 : 216;
        VolumeHeader header = new VolumeHeader(md.site(), md.at(), 4096);
        Checks out = all.in(header.whole());
        Mark sum = out.check("md.checksum", header.range(sumAt, 4), () -> {
            Window w = md.site().window(md.at(), 512);
            if (!md.old() && w.u32le(220) > 1920) {
                return Outcome.failed(w.u32le(220) + " roles", "at most 1920").at(header.range(220, 4));
            }
            return Outcome.test(md.sumHolds(), VolumeHeader.hex(md.storedSum()), VolumeHeader.hex(md.sum()));
        });
        if (!md.old()) {
            out.check("md.place", header.range(144, 8), () -> Outcome.test(md.inPlace(),
                    Long.toUnsignedString(md.site().window(md.at(), 512).u64le(144)), md.at() / 512).because(sum));
        }
    }
}
