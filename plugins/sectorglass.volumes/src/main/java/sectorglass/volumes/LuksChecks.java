package sectorglass.volumes;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HexFormat;

import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Judges LUKS headers. Source: libblkid superblock prober for LUKS (util-linux); what cryptsetup 2.6.1 writes. */
final class LuksChecks {

    private LuksChecks() {
    }

    /** Slots of version 1: states, places before the content, ascending and apart. */
    static void slots(VolumeSite site, Checks all) {
        VolumeHeader header = new VolumeHeader(site, 0, Luks1.LENGTH);
        all.in(header.whole()).check("luks1.slots", header.range(208, 384), () -> {
            Window w = header.window();
            long payload = w.u32be(104);
            long sectors = (w.u32be(108) * 4000 + 511) / 512;
            long end = 2;
            for (int i = 0; i < 8; i++) {
                int at = 208 + 48 * i;
                long state = w.u32be(at);
                long material = w.u32be(at + 40);
                if (state != 0x00AC71F3L && state != 0x0000DEADL) {
                    return Outcome.failed("state " + VolumeHeader.hex(state), "00AC71F3 or 0000DEAD").with("slot", i).at(header.range(at, 4));
                }
                if (material < end || payload != 0 && material >= payload) {
                    return Outcome.failed("key material at sector " + material, "from sector " + end + ", before " + payload)
                            .with("slot", i).at(header.range(at + 40, 4));
                }
                end = state == 0x00AC71F3L ? material + Math.min(sectors, w.u32be(104)) : material + 1;
            }
            return Outcome.passed();
        });
    }

    /** Both copies of version 2. */
    static void copies(VolumeSite site, long believed, Checks all) {
        Integer size = VolumeFacts.known(() -> Luks2.size(site.window(believed, 512)));
        long second = believed != 0 ? believed : size == null || size < 0 ? -1 : size;
        Mark first = copy(site, 0, all);
        Mark other = second > 0 && second <= site.bytes() - 4096 ? copy(site, second, all) : null;
        if (other != null) {
            VolumeHeader header = new VolumeHeader(site, second, 4096);
            all.in(header.whole()).check("luks2.copies", header.range(16, 8), () -> {
                Window a = site.window(0, 512);
                Window b = header.window();
                if (!a.matches(0, LuksVolumes.MAGIC) || !b.matches(0, LuksVolumes.SECOND)) {
                    return null;
                }
                int length = Luks2.size(a);
                boolean same = a.u64be(16) == b.u64be(16) && a.ascii(168, 40).equals(b.ascii(168, 40));
                if (same && length > 4096) {
                    same = Arrays.equals(site.window(4096, length - 4096).bytes(0, length - 4096),
                            site.window(second + 4096, length - 4096).bytes(0, length - 4096));
                }
                return Outcome.test(same, "sequence " + b.u64be(16), "sequence " + a.u64be(16)).because(first.failed() ? first : other);
            });
        }
    }

    private static Mark copy(VolumeSite site, long at, Checks all) {
        VolumeHeader header = new VolumeHeader(site, at, 4096);
        Checks out = all.in(header.whole());
        int[] magic = at == 0 ? LuksVolumes.MAGIC : LuksVolumes.SECOND;
        Mark sum = out.check("luks2.csum", header.range(448, 64), () -> {
            Window w = header.window();
            if (!w.matches(0, magic)) {
                return Outcome.failed("magic " + HexFormat.of().withUpperCase().formatHex(w.bytes(0, 6)), at == 0 ? "LUKS BA BE" : "SKUL BA BE")
                        .at(header.range(0, 6));
            }
            int size = Luks2.size(w);
            if (size < 0) {
                return Outcome.failed("header size " + w.u64be(8), "16384 to 4194304, a power of two").at(header.range(8, 8));
            }
            String kind = VolumeFacts.text(w, 72, 32, StandardCharsets.US_ASCII);
            if (!"sha256".equals(kind)) {
                return Outcome.undecided("checksum \"" + (kind == null ? "" : kind.replaceAll("[^ -~]", "?")) + "\" is not computed here");
            }
            byte[] computed = Luks2.sum(site.window(at, size));
            byte[] stored = w.bytes(448, 32);
            return Outcome.test(Arrays.equals(computed, stored), HexFormat.of().formatHex(stored), HexFormat.of().formatHex(computed));
        });
        if (Boolean.TRUE.equals(VolumeFacts.known(() -> header.window().matches(0, magic)))) {
            out.check("luks2.offset", header.range(256, 8), () -> Outcome.test(header.window().u64be(256) == at,
                    Long.toUnsignedString(header.window().u64be(256)), at).because(sum));
            out.check("luks2.json", header.range(4095, 1), () -> {
                int size = Luks2.size(header.window());
                return size < 0 ? null : Luks2Json.check(site.window(at + 4096, size - 4096).bytes(0, size - 4096)).because(sum);
            });
        }
        return sum;
    }
}
