package sectorglass.fat;

import java.util.Arrays;
import java.util.Optional;

import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/**
 * Infers the layout of a FAT32 volume whose boot sector and its backup are lost: two FATs that begin alike, as far apart as one is long,
 * and a root directory behind them. The size of a cluster follows from the length of a FAT and from the entries of the root directory; the
 * number of sectors is that of the site, or follows from the free clusters that FSInfo counts. Common practice, no source.
 */
final class LayoutGuess32 {
    private static final int HEAD = 64;
    /** Sectors before the first FAT that are looked at where a map or the start of the image speaks for a volume and something stands there. */
    private static final int MOST_RESERVED = 8192;
    /** The same where nothing but zeros begins it: a disk may have many empty partitions, and a first look must stay cheap. */
    private static final int BLANK_RESERVED = 2048;
    private static final int FEW_RESERVED = 1024;
    private static final int LEAST_RESERVED = 128;
    /** Bytes of a FAT that are gone through for the second one: 8 million clusters. */
    private static final long MOST_FAT = 32L << 20;
    private static final int CHUNK = 1 << 16;
    private static final int ROOT = 2;

    private final VolumeSite site;
    private final int size;

    private final boolean strict;

    private LayoutGuess32(VolumeSite site, boolean strict) {
        this.site = site;
        this.strict = strict;
        this.size = site.image().sectorSize();
    }

    /**
     * The layout, if what stands at the site determines one.
     *
     * @param strict whether both FATs must be equal throughout and entries must confirm the size of a cluster, because other bytes than
     *     zeros stand in the boot sector
     */
    static Optional<Geometry> at(VolumeSite site, boolean strict) {
        return new LayoutGuess32(site, strict).find();
    }

    private Optional<Geometry> find() {
        long first = next(size, (long) reserved() * size, null);
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
        Geometry possible = null;
        for (int perCluster = 1; perCluster <= 128; perCluster *= 2) {
            long clusters = (total - data) / perCluster;
            Geometry candidate = new Geometry(FatKind.FAT32, size, perCluster, (int) (first / size), 2, fatSectors, 0, 0, ROOT, total, clusters);
            if (clusters < 1) {
                break;
            }
            LayoutProof proof = fits(candidate) ? LayoutProof.of(site, candidate) : null;
            if (proof != null && proof.holds() && (!strict || LayoutProof.sameTables(site, candidate))) {
                return Optional.of(candidate);
            }
            possible = proof != null && proof.possible() && possible == null ? candidate : possible;
        }
        return Optional.ofNullable(strict ? null : possible).or(() -> smaller(first, fatSectors, data));
    }

    private int reserved() {
        if (site.type() != null || site.range().first() == 0) {
            return blank() ? BLANK_RESERVED : MOST_RESERVED;
        }
        return strict ? LEAST_RESERVED : FEW_RESERVED;
    }

    /** Whether the site begins with zeros only. */
    private boolean blank() {
        Window window = site.window(0, (int) Math.min(CHUNK, site.bytes()));
        byte[] bytes = window.raw(0, window.length());
        return Arrays.mismatch(bytes, new byte[bytes.length]) < 0;
    }

    /** Whether formatters make a FAT of that length for so many clusters: none is twice as long as needed. */
    private boolean fits(Geometry candidate) {
        long needed = (candidate.tableBytes() + size - 1) / size;
        return needed <= candidate.fatSectors() && 2 * needed > candidate.fatSectors();
    }

    /** A volume that does not fill its site, where FSInfo tells how many clusters it has. */
    private Optional<Geometry> smaller(long first, long fatSectors, long data) {
        long most = Math.min(FatKind.MOST_CLUSTERS - 1, fatSectors * size / 4 - 2);
        for (int perCluster = 1; perCluster <= 128; perCluster *= 2) {
            long total = Math.min(site.bytes() / size, data + most * perCluster);
            long clusters = (total - data) / perCluster;
            Geometry room = new Geometry(FatKind.FAT32, size, perCluster, (int) (first / size), 2, fatSectors, 0, 0, ROOT, total, clusters);
            if (clusters < 1 || !LayoutProof.of(site, room).holds()) {
                continue;
            }
            long exact = counted(room);
            Geometry found = new Geometry(FatKind.FAT32, size, perCluster, (int) (first / size), 2, fatSectors, 0, 0, ROOT, data + exact * perCluster,
                    exact);
            return exact > 0 && fits(found) && LayoutProof.sameTables(site, found) ? Optional.of(found) : Optional.empty();
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

    /** The free clusters that FSInfo in sector 1 states, or -1. */
    private long stated() {
        Window info = site.window(size, BootSector.SIZE);
        boolean signed = info.isRead(0, BootSector.SIZE) && info.matches(InfoCheck.LEAD, "RRaA") && info.matches(InfoCheck.STRUCTURE, "rrAa")
                && info.u32le(InfoCheck.FREE) != InfoCheck.UNKNOWN;
        return signed ? info.u32le(InfoCheck.FREE) : -1;
    }

    /**
     * Clusters of a volume that is smaller than its partition: up to the last one that is among the free ones FSInfo counts. -1 where FSInfo
     * does not tell, or the FAT has fewer free entries.
     */
    private long counted(Geometry room) {
        long left = stated();
        FatTable table = new FatTable(site, room, 0, 1);
        for (long cluster = 2; left >= 0 && cluster < table.entries(); cluster++) {
            int entry = table.entry((int) cluster);
            if (entry == FatTable.UNREAD) {
                return -1;
            }
            if (entry == 0 && left-- == 0) {
                return cluster - 2;
            }
        }
        return left == 0 ? table.entries() - 2 : -1;
    }
}
