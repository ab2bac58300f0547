package sectorglass.volumes;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.HeaderVolume;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** Makes the volume of a UDF anchor: walks the volume descriptor sequence. Source: ECMA-167, 3/8.4 and 3/10. */
final class UdfVolume {
    private static final int MOST = 256;

    private UdfVolume() {
    }

    /** @param anchor null where none was found */
    static Volume open(VolumeSite site, UdfAnchor anchor) {
        VolumeFacts facts = new VolumeFacts();
        if (anchor != null) {
            facts.clusterBytes = (long) anchor.sectorSize();
            Window w = site.window(anchor.at(), 512);
            if (!walk(site, anchor, w, 16, facts)) {
                walk(site, anchor, w, 24, facts);
            }
        } else {
            facts.remarks.add("no anchor was found");
        }
        List<Structure> structures = new ArrayList<>();
        structures.add(new VolumeHeader(site, 32768, 2048).structure("first recognition descriptor", "udf_recognition_descriptor"));
        if (anchor != null) {
            structures.add(new VolumeHeader(site, anchor.at(), 512).structure("anchor", "udf_anchor"));
        }
        return new HeaderVolume(facts.info("udf", site), site, List.copyOf(structures), List.of(),
                (level, out) -> UdfChecks.check(site, anchor, out));
    }

    private static boolean walk(VolumeSite site, UdfAnchor anchor, Window w, int extent, VolumeFacts facts) {
        Boolean found = VolumeFacts.known(() -> {
            long first = w.u32le(extent + 4);
            long count = Math.min(MOST, w.u32le(extent) / anchor.sectorSize());
            for (long sector = first; sector < first + count; sector++) {
                long at = sector * anchor.sectorSize();
                if (!site.has(at, 512)) {
                    continue;
                }
                Window d = site.window(at, 512);
                int tag = d.u16le(0);
                if (UdfAnchor.tagSum(d) != d.u8(4) || tag == 8) {
                    break;
                }
                if (tag == 1) {
                    facts.uuid = identity(dstring(d, 72, 128));
                } else if (tag == 6) {
                    facts.label = dstring(d, 84, 128);
                    facts.clusterBytes = d.u32le(212);
                } else if (tag == 5) {
                    facts.bytes = VolumeFacts.product(d.u32le(192), anchor.sectorSize());
                }
            }
            return facts.label != null || facts.uuid != null;
        });
        return Boolean.TRUE.equals(found);
    }

    /** A string whose first byte is 8 or 16 (bits per character) and whose last byte is its length. UDF 2.1.3. */
    static String dstring(Window w, int at, int field) {
        int length = Math.min(w.u8(at + field - 1), field - 1);
        if (length < 2) {
            return null;
        }
        int compression = w.u8(at);
        String text = compression == 16 || compression == 255 ? w.text(at + 1, length - 1 & ~1, StandardCharsets.UTF_16BE)
                : w.text(at + 1, length - 1, StandardCharsets.ISO_8859_1);
        int end = text.indexOf(0);
        return (end < 0 ? text : text.substring(0, end)).strip();
    }

    /**
     * Identity from the volume set identifier, as libblkid forms it: its first 16 characters where they are hex digits; with 8 to
     * 15 hex digits the first 8 and the bytes of the next 4 in hex; else the first 8 bytes in hex.
     */
    static String identity(String set) {
        if (set == null) {
            return null;
        }
        byte[] bytes = set.getBytes(StandardCharsets.UTF_8);
        if (bytes.length < 8) {
            return null;
        }
        int digits = 0;
        while (digits < 16 && digits < bytes.length && Character.digit(bytes[digits], 16) >= 0) {
            digits++;
        }
        if (digits == 16) {
            return set.substring(0, 16).toLowerCase(Locale.ROOT);
        }
        StringBuilder text = new StringBuilder(digits >= 8 ? set.substring(0, 8).toLowerCase(Locale.ROOT) : "");
        for (int i = digits >= 8 ? 8 : 0; i < (digits >= 8 ? 12 : 8); i++) {
            text.append(String.format("%02x", i < bytes.length ? bytes[i] : 0));
        }
        return text.toString();
    }
}
