package sectorglass.fat;

import java.util.Arrays;
import java.util.Optional;

import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/**
 * Infers the layout of a FAT32 volume whose boot sector and its backup are lost: two FATs that begin alike, as far apart as one is long,
 * a root directory behind them, and a subdirectory whose "." entry names its own cluster. The size of a cluster follows from the length
 * of a FAT. Common practice, no source.
 */
final class LayoutGuess32 {
    private static final int HEAD = 64;
    /** Sectors before the first FAT that are looked at: every blank partition of a disk pays for them. */
    private static final int MOST_RESERVED = 1024;
    /** Bytes of a FAT that are gone through for the second one: 8 million clusters. */
    private static final long MOST_FAT = 32L << 20;
    private static final int CHUNK = 1 << 16;
    private static final int ROOT = 2;

    private final VolumeSite site;
    private final int size;

    private LayoutGuess32(VolumeSite site) {
        this.site = site;
        this.size = site.image().sectorSize();
    }

    static Optional<Geometry> at(VolumeSite site) {
        return new LayoutGuess32(site).find();
    }

    private Optional<Geometry> find() {
        long first = next(size, (long) MOST_RESERVED * size, null);
        if (first < 0) {
            return Optional.empty();
        }
        byte[] head = site.window(first, HEAD).bytes(0, HEAD);
        long second = next(first + size, first + MOST_FAT, head);
        if (second < 0) {
            return Optional.empty();
        }
        long fatSectors = (second - first) / size;
        long data = (first + 2 * (second - first)) / size;
        long total = site.bytes() / size;
        for (int perCluster = 1; perCluster <= 128; perCluster *= 2) {
            long clusters = (total - data) / perCluster;
            long needed = (FatKind.FAT32.tableBytes(Math.max(0, clusters) + 2) + size - 1) / size;
            Geometry candidate = new Geometry(FatKind.FAT32, size, perCluster, (int) (first / size), 2, fatSectors, 0, 0, ROOT, total, clusters);
            if (clusters > 0 && needed <= fatSectors && 2 * needed > fatSectors && confirmed(candidate)) {
                return Optional.of(candidate);
            }
        }
        return Optional.empty();
    }

    /** The next sector from a byte on that begins like a FAT32: media byte, then ones; equal to a head where one is given. */
    private long next(long from, long to, byte[] head) {
        for (long at = from; at < to && at + CHUNK <= site.bytes(); at += CHUNK) {
            Window window = site.window(at, CHUNK);
            for (int i = 0; i < CHUNK; i += size) {
                if (window.isRead(i, HEAD) && begins(window, i)
                        && (head == null || Arrays.equals(head, window.raw(i, HEAD)))) {
                    return at + i;
                }
            }
        }
        return -1;
    }

    private static boolean begins(Window window, int at) {
        return Recognition.legalMedia(window.u8(at)) && window.u8(at + 1) == 0xFF && window.u8(at + 2) == 0xFF
                && (window.u8(at + 3) & 0x0F) == 0x0F && window.u8(at + 4) == 0xFF && window.u8(at + 5) == 0xFF && window.u8(at + 6) == 0xFF;
    }

    /** Whether the root directory's first subdirectory stands where the layout says; without one, whether the root looks like a directory. */
    private boolean confirmed(Geometry geometry) {
        long root = geometry.clusterByte(ROOT);
        int slots = geometry.clusterBytes() / 32;
        for (int slot = 0; slot < slots; slot++) {
            long at = root + slot * 32L;
            if (!site.has(at, 32)) {
                return false;
            }
            Window entry = site.window(at, 32);
            int first = entry.u8(0);
            if (first == 0) {
                return slot > 0;
            }
            if (first < 0x20 && first != 0x05 || (entry.u8(11) & 0xC0) != 0) {
                return false;
            }
            long cluster = (long) entry.u16le(20) << 16 | entry.u16le(26);
            if (first != 0xE5 && (entry.u8(11) & 0x3F) == 0x10 && geometry.exists(cluster)) {
                long child = geometry.clusterByte(cluster);
                Window dot = site.has(child, 32) ? site.window(child, 32) : null;
                return dot != null && dot.matches(0, ".          ") && ((long) dot.u16le(20) << 16 | dot.u16le(26)) == cluster;
            }
        }
        return false;
    }
}
