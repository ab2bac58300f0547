package sectorglass.apple;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.text.Normalizer;
import java.time.Instant;

import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** The volume header of HFS+ and HFSX, big endian. Source: Apple TN1150 by way of the header hfs_format.h (xnu). */
final class HfsPlus {
    private static final long EPOCH = 2082844800L;
    private static final byte[] NAMESPACE = {(byte) 0xB3, (byte) 0xE2, 0x0F, 0x39, (byte) 0xF2, (byte) 0x92, 0x11, (byte) 0xD6,
        (byte) 0x97, (byte) 0xA4, 0x00, 0x30, 0x65, 0x43, (byte) 0xEC, (byte) 0xAC};

    /**
     * Where an HFS+ volume lies.
     *
     * @param start its byte 0 from the start of the site
     * @param length its bytes
     * @param header byte of the header to believe, from {@code start}
     */
    record Place(long start, long length, long header) { }

    private HfsPlus() {
    }

    /** Whether signature and version belong together. */
    static boolean signature(Window w) {
        return w.matches(0, 'H', '+', 0, 4) || w.matches(0, 'H', 'X', 0, 5);
    }

    /** Whether signature, block size and counts make sense. */
    static boolean plausible(Window w) {
        return signature(w) && VolumeFacts.power(w.u32be(40), 512, 1L << 26) && w.u32be(44) > 0 && w.u32be(48) <= w.u32be(44);
    }

    /** A date in seconds since 1904-01-01, or null where it is not set. */
    static Instant date(long seconds) {
        return seconds == 0 ? null : Instant.ofEpochSecond(seconds - EPOCH);
    }

    /**
     * Identity from the 8 bytes of the volume id, as libblkid forms it (util-linux, from memory): MD5 over a fixed name space and the
     * bytes, marked as version 3; null where the bytes are zero.
     */
    static String identity(Window w, int at) {
        if (w.filled(at, 8, 0)) {
            return null;
        }
        try {
            MessageDigest md5 = MessageDigest.getInstance("MD5");
            md5.update(NAMESPACE);
            byte[] uuid = md5.digest(w.bytes(at, 8));
            uuid[6] = (byte) (uuid[6] & 0x0F | 0x30);
            uuid[8] = (byte) (uuid[8] & 0x3F | 0x80);
            return VolumeFacts.uuid(uuid);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has MD5", e);
        }
    }

    static Volume open(VolumeSite site, Place place) {
        Window w = site.window(place.start() + place.header(), 512);
        VolumeFacts facts = new VolumeFacts();
        VolumeFacts.known(() -> {
            long block = w.u32be(40);
            facts.clusterBytes = block;
            facts.bytes = VolumeFacts.product(w.u32be(44), block);
            facts.usedBytes = VolumeFacts.product(Math.max(0, w.u32be(44) - w.u32be(48)), block);
            facts.latest = date(w.u32be(20));
            facts.uuid = identity(w, 104);
            if ((w.u32be(4) & 1L << 8) == 0 || (w.u32be(4) & 1L << 11) != 0) {
                facts.remarks.add("not closed cleanly");
            }
            return facts.label = name(site, place, w);
        });
        if (place.start() > 0) {
            facts.remarks.add("HFS+ at byte " + place.start() + " in an HFS wrapper");
        }
        if (place.header() != 1024) {
            facts.remarks.add("read from the alternate volume header");
        }
        HfsLayout layout = VolumeFacts.known(() -> HfsLayout.of(site, place));
        if (layout != null && layout.journal() != null && Boolean.TRUE.equals(layout.journal().pending())) {
            facts.remarks.add("journal needs replay");
        }
        return new HfsVolume(site, place, facts.info("hfsplus", site));
    }

    /** The volume's name: key of the thread or folder record below parent 1 in the first leaf of the catalog. */
    static String name(VolumeSite site, Place place, Window header) {
        long block = header.u32be(40);
        long catalog = header.u32be(272 + 16) * block + place.start();
        if (!site.has(catalog, 512)) {
            return null;
        }
        Window node = site.window(catalog, 512);
        int size = node.u16be(14 + 18);
        long leaf = node.u32be(14 + 10);
        long extent = header.u32be(272 + 20) * block;
        if (!VolumeFacts.power(size, 512, 32768) || (leaf + 1) * size > extent) {
            return null;
        }
        Window first = site.window(catalog + leaf * size, size);
        int at = first.u16be(size - 2);
        if (at < 14 || at + 8 > size || first.u8(8) != 0xFF || first.u32be(at + 2) != 1) {
            return null;
        }
        int units = first.u16be(at + 6);
        return units > 255 || at + 8 + units * 2 > size ? null
                : Normalizer.normalize(first.text(at + 8, units * 2, StandardCharsets.UTF_16BE), Normalizer.Form.NFC);
    }
}
