package sectorglass.exfat;

import java.util.Optional;

import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/**
 * The layout of a volume whose boot regions are both lost: the FAT begins with its media type, the up-case table with the first letters in
 * order, the root directory names the clusters of bitmap and up-case table; places divided by numbers give the size of a cluster. Microsoft
 * exFAT specification, sections 4.1, 7.1 and 7.2.
 */
final class LostBoot {
    private static final int CHUNK = 1 << 16;
    private static final int UPCASE_HEAD = 32;
    /** Bytes in which the FAT is looked for sector by sector, and in steps: every blank partition of a disk pays for them. */
    private static final long NEAR_FAT = 64L << 10;
    private static final long MOST_FAT = 8L << 20;
    /** Bytes behind the start of the FAT in which up-case table and root directory are looked for. */
    private static final long MOST_HEAP = 96L << 20;
    private static final int FIRST_FAT_SECTOR = 24;
    private static final int MOST_CLUSTER = 32 << 20;

    private final VolumeSite site;
    private final int size;

    /** The entries of a root directory that name other structures. */
    private record RootFound(long at, long bitmap, long bitmapBytes, long upcase) { }

    private final boolean far;

    private LostBoot(VolumeSite site, boolean far) {
        this.site = site;
        this.far = far;
        this.size = site.image().sectorSize();
    }

    /**
     * The layout, if what stands at the site determines one.
     *
     * @param far whether the FAT is looked for farther away than 64 KiB
     */
    static Optional<Geometry> at(VolumeSite site, boolean far) {
        return new LostBoot(site, far).find();
    }

    private Optional<Geometry> find() {
        long fat = scan((long) FIRST_FAT_SECTOR * size, NEAR_FAT, LostBoot::fat);
        // farther away it stands on a boundary of the medium
        for (long at = NEAR_FAT; far && fat < 0 && at <= MOST_FAT; at += NEAR_FAT) {
            fat = site.has(at, 8) && fat(site.window(at, 8), 0) ? at : -1;
        }
        if (fat < 0) {
            return Optional.empty();
        }
        long upcase = scan(fat + size, fat + MOST_HEAP, LostBoot::upcase);
        long rootAt = upcase < 0 ? -1 : scan(fat + size, upcase + MOST_HEAP, (window, at) -> root(window, at) != null);
        if (rootAt < 0) {
            return Optional.empty();
        }
        RootFound root = root(site.window(rootAt, 128), 0);
        for (int cluster = size; cluster <= MOST_CLUSTER; cluster *= 2) {
            Geometry found = with(cluster, fat, upcase, rootAt, root);
            if (found != null) {
                return Optional.of(found);
            }
        }
        return Optional.empty();
    }

    private Geometry with(int cluster, long fat, long upcase, long rootAt, RootFound root) {
        long heap = upcase - (root.upcase() - 2) * cluster;
        if (heap <= fat || heap % size != 0 || (rootAt - heap) % cluster != 0 || rootAt < heap) {
            return null;
        }
        long rootCluster = (rootAt - heap) / cluster + 2;
        long clusters = (site.bytes() - heap) / cluster;
        long fatLength = ((clusters + 2) * 4 + size - 1) / size;
        if (clusters <= 8 * (root.bitmapBytes() - 1) || clusters > 8 * root.bitmapBytes() || fat + fatLength * size > heap) {
            return null;
        }
        Geometry geometry = new Geometry(size, cluster, fat / size, fatLength, 1, 0, heap / size, clusters, rootCluster, site.bytes() / size);
        boolean used = used(geometry, root.bitmap(), root.bitmap()) && used(geometry, root.bitmap(), root.upcase())
                && used(geometry, root.bitmap(), rootCluster);
        return used ? geometry : null;
    }

    private boolean used(Geometry geometry, long bitmap, long cluster) {
        if (!geometry.exists(bitmap) || !geometry.exists(cluster)) {
            return false;
        }
        long at = geometry.clusterByte(bitmap) + (cluster - 2) / 8;
        return site.has(at, 1) && (site.window(at, 1).u8(0) >> (cluster - 2) % 8 & 1) == 1;
    }

    private interface Test {
        boolean holds(Window window, int at);
    }

    private long scan(long from, long to, Test test) {
        long end = Math.min(to, site.bytes());
        for (long at = from; at < end; at += CHUNK) {
            int length = (int) Math.min(CHUNK, site.bytes() - at);
            Window window = site.window(at, length);
            for (int i = 0; i + 128 <= length; i += size) {
                if (window.isRead(i, 128) && test.holds(window, i)) {
                    return at + i;
                }
            }
        }
        return -1;
    }

    private static boolean fat(Window window, int at) {
        return window.u32le(at) == 0xFFFFFFF8L && window.u32le(at + 4) == 0xFFFFFFFFL;
    }

    private static boolean upcase(Window window, int at) {
        for (int i = 0; i < UPCASE_HEAD; i++) {
            if (window.u16le(at + 2 * i) != i) {
                return false;
            }
        }
        return true;
    }

    /** Entries of bitmap and up-case table among the first four, or null. */
    private static RootFound root(Window window, int at) {
        long bitmap = 0;
        long bytes = 0;
        long upcase = 0;
        for (int i = 0; i < 4; i++) {
            int slot = at + 32 * i;
            if (window.u8(slot) == 0x81) {
                bitmap = window.u32le(slot + 20);
                bytes = window.u64le(slot + 24);
            } else if (window.u8(slot) == 0x82) {
                upcase = window.u32le(slot + 20);
            }
        }
        return bitmap >= 2 && upcase >= 2 && bytes > 0 && bytes <= BootSector.MOST_CLUSTERS / 8 + 1
                ? new RootFound(at, bitmap, bytes, upcase) : null;
    }
}
