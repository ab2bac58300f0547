package sectorglass.volumes;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/**
 * A place where an md superblock may lie, and its fields. Source: libblkid superblock prober for linux_raid (util-linux);
 * checksums as mdadm --examine judges them.
 *
 * @param site the member
 * @param at byte of the superblock from the start of the member
 * @param version 0.90, 1.0, 1.1 or 1.2
 * @param bigEndian byte order; version 0.90 is stored in that of the machine
 */
record MdSuperblock(VolumeSite site, long at, String version, boolean bigEndian) {
    private static final long MAGIC = 0xA92B4EFCL;

    /** The places that exist in a member, the likeliest first. */
    static List<MdSuperblock> candidates(VolumeSite site) {
        List<MdSuperblock> all = new ArrayList<>();
        all.add(new MdSuperblock(site, 4096, "1.2", false));
        all.add(new MdSuperblock(site, 0, "1.1", false));
        long size = site.bytes();
        if (size >= 8192) {
            all.add(new MdSuperblock(site, (size & -4096L) - 8192, "1.0", false));
        }
        if (size >= 131072) {
            long at = (size & -65536L) - 65536;
            all.add(new MdSuperblock(site, at, "0.90", false));
            all.add(new MdSuperblock(site, at, "0.90", true));
        }
        return all;
    }

    /** Whether it is of version 0.90. */
    boolean old() {
        return version.equals("0.90");
    }

    /** Number of bytes that the superblock takes at most. */
    int length() {
        return 4096;
    }

    /** The superblock's bytes. */
    Window window() {
        return site.window(at, length());
    }

    /** A 32-bit word. */
    long u32(Window w, int offset) {
        return bigEndian ? w.u32be(offset) : w.u32le(offset);
    }

    /** Whether magic and major version stand here and were read. */
    boolean present() {
        if (!site.has(at, 512)) {
            return false;
        }
        Window w = site.window(at, 512);
        return u32(w, 0) == MAGIC && u32(w, 4) == (old() ? 0 : 1) && (!old() || u32(w, 8) == 90);
    }

    /** Whether the fields make sense apart from the checksum. */
    boolean plausible() {
        Window w = site.window(at, 512);
        return old() ? u32(w, 40) <= 27 && u32(w, 32) * 1024 <= site.bytes()
                : u32(w, 220) <= 1920 && inPlace() && w.u64le(128) >= 0 && w.u64le(128) <= site.bytes() / 512;
    }

    /** Whether the superblock says that it belongs here; version 0.90 does not say. */
    boolean inPlace() {
        return old() || site.window(at, 512).u64le(144) == at / 512;
    }

    /** Stored checksum. */
    long storedSum() {
        return u32(window(), old() ? 152 : 216);
    }

    /** Computed checksum. */
    long sum() {
        Window w = window();
        if (old()) {
            return fold(add(w, 4096, 152));
        }
        long roles = u32(w, 220);
        return roles > 1920 ? -1 : fold(add(w, (int) (256 + 2 * roles), 216));
    }

    /** Whether the checksum holds. */
    boolean sumHolds() {
        return sum() == storedSum();
    }

    private long add(Window w, int length, int sumAt) {
        w.require(0, length);
        long sum = 0;
        for (int i = 0; i + 4 <= length; i += 4) {
            sum += i == sumAt ? 0 : u32(w, i);
        }
        return length % 4 == 0 ? sum : sum + w.u16le(length - 2);
    }

    private static long fold(long sum) {
        return (sum & 0xFFFFFFFFL) + (sum >>> 32) & 0xFFFFFFFFL;
    }

    /** Level of the set: -4 multipath, -1 linear, 0, 1, 4, 5, 6 or 10. */
    int level() {
        return (int) u32(site.window(at, 512), old() ? 28 : 72);
    }

    /** Number of member disks. */
    long disks() {
        return u32(site.window(at, 512), old() ? 40 : 92);
    }

    /** Identity of the set. */
    String uuid() {
        Window w = site.window(at, 512);
        if (!old()) {
            return VolumeFacts.uuid(w, 16);
        }
        String hex = String.format("%08x%08x%08x%08x", u32(w, 20), u32(w, 52), u32(w, 56), u32(w, 60));
        return hex.replaceFirst("(.{8})(.{4})(.{4})(.{4})(.{12})", "$1-$2-$3-$4-$5");
    }
}
