package sectorglass.volumes;

import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.List;

import sectorglass.disk.HeaderVolume;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** Makes the volume of ISO 9660 descriptors. */
final class IsoVolume {

    private IsoVolume() {
    }

    static Volume open(VolumeSite site) {
        VolumeFacts facts = new VolumeFacts();
        String[] joliet = new String[1];
        for (IsoDescriptor descriptor : IsoDescriptor.list(site)) {
            Window w = site.window(descriptor.at(), 2048);
            VolumeFacts.known(() -> {
                if (descriptor.type() == 1 && facts.clusterBytes == null) {
                    primary(w, facts);
                } else if (descriptor.type() == 2 && joliet[0] == null && IsoDescriptor.joliet(w)) {
                    joliet[0] = new String(w.bytes(40, 32), StandardCharsets.UTF_16BE);
                    facts.remarks.add("with Joliet names");
                }
                return true;
            });
        }
        facts.label = label(facts.label, joliet[0]);
        List<Structure> structures = IsoDescriptor.list(site).stream().filter(d -> d.type() == 1 || d.type() == 2)
                .map(d -> new VolumeHeader(site, d.at(), 2048).structure(d.type() == 1 ? "primary volume descriptor"
                        : "supplementary volume descriptor", "iso9660_volume_descriptor")).toList();
        return new HeaderVolume(facts.info("iso9660", site), site, structures, List.of(),
                (level, out) -> IsoChecks.check(site, out));
    }

    private static void primary(Window w, VolumeFacts facts) {
        facts.clusterBytes = (long) w.u16le(128);
        facts.bytes = VolumeFacts.product(w.u32le(80), w.u16le(128));
        facts.label = w.ascii(40, 32);
        String changed = date(w, 830);
        String created = date(w, 813);
        facts.uuid = changed != null ? changed : created;
        facts.latest = instant(w, changed != null ? 830 : 813);
    }

    /**
     * The name: Joliet's 16 characters where there are any. The primary name may be longer; where it agrees with Joliet's (in
     * capitals; its underscore stands for any character that ISO 9660 does not know), its rest is appended.
     */
    static String label(String primary, String joliet) {
        String plain = primary == null ? "" : strip(primary);
        String wide = joliet == null ? "" : strip(joliet);
        if (wide.isEmpty()) {
            return plain.isEmpty() ? null : plain;
        }
        if (wide.length() != 16 || plain.length() <= 16) {
            return wide;
        }
        for (int i = 0; i < 16; i++) {
            if (plain.charAt(i) != Character.toUpperCase(wide.charAt(i)) && plain.charAt(i) != wide.charAt(i)
                    && plain.charAt(i) != '_') {
                return wide;
            }
        }
        return wide + plain.substring(16);
    }

    private static String strip(String text) {
        int end = text.indexOf(0);
        return (end < 0 ? text : text.substring(0, end)).strip();
    }

    /** A date of 17 bytes as year-month-day-hour-minute-second-hundredths, or null where it is not set. ECMA-119, 8.4.26.1. */
    private static String date(Window w, int at) {
        String digits = w.ascii(at, 16);
        return digits.chars().allMatch(c -> c >= '0' && c <= '9') && !digits.equals("0000000000000000")
                ? digits.replaceFirst("(.{4})(..)(..)(..)(..)(..)(..)", "$1-$2-$3-$4-$5-$6-$7") : null;
    }

    private static Instant instant(Window w, int at) {
        String text = date(w, at);
        if (text == null) {
            return null;
        }
        String[] part = text.split("-");
        try {
            return LocalDateTime.of(Integer.parseInt(part[0]), Integer.parseInt(part[1]), Integer.parseInt(part[2]),
                    Integer.parseInt(part[3]), Integer.parseInt(part[4]), Integer.parseInt(part[5]))
                    .minusMinutes(15L * (byte) w.u8(at + 16)).toInstant(ZoneOffset.UTC);
        } catch (DateTimeException e) {
            return null;
        }
    }
}
