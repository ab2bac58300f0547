package sectorglass.fat;

import java.util.Arrays;

import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/**
 * What a root directory says for and against an inferred layout: a folder begins with "." and its own cluster where the layout puts it, and
 * the chain of a file is as long as its size needs. Two clusters or more determine the size of a cluster: with half of it the chain would
 * need nearly twice as many, with double only half. Microsoft FAT specification, "FAT Directory Structure".
 */
final class LayoutProof {
    private static final int SLOT = 32;
    private static final int MOST_SLOTS = 1024;
    /** A longer file is not followed. */
    private static final long MOST_CHAIN = 1 << 16;
    private static final int CHUNK = 1 << 16;

    private final VolumeSite site;
    private final Geometry geometry;
    private final FatTable table;
    private int agreeing;
    private int against;
    private int entries;

    private LayoutProof(VolumeSite site, Geometry geometry) {
        this.site = site;
        this.geometry = geometry;
        this.table = new FatTable(site, geometry, 0, 1);
    }

    static LayoutProof of(VolumeSite site, Geometry geometry) {
        LayoutProof proof = new LayoutProof(site, geometry);
        if (geometry.kind() == FatKind.FAT32) {
            proof.chain();
        } else {
            proof.slots(geometry.rootSector() * geometry.sectorBytes(), geometry.rootSlots());
        }
        return proof;
    }

    /** Whether entries confirm the size of a cluster, and more of them than speak against it. */
    boolean holds() {
        return agreeing > against;
    }

    /** Whether there are entries and none speaks against the layout. */
    boolean possible() {
        return entries > 0 && against == 0;
    }

    private void chain() {
        Chain root = Chain.follow(table, geometry.rootCluster(), MOST_SLOTS * SLOT / geometry.clusterBytes() + 1L);
        for (int run = 0; run < root.runs(); run++) {
            for (int i = 0; i < root.count(run); i++) {
                if (entries > MOST_SLOTS || !slots(geometry.clusterByte(root.first(run) + i), geometry.clusterBytes() / SLOT)) {
                    return;
                }
            }
        }
    }

    /** Goes through slots; false where the directory ends. */
    private boolean slots(long from, int count) {
        for (int slot = 0; slot < count; slot++) {
            long at = from + (long) slot * SLOT;
            if (!site.has(at, SLOT)) {
                continue;
            }
            Window entry = site.window(at, SLOT);
            if (entry.u8(0) == 0) {
                return false;
            }
            judge(entry);
        }
        return true;
    }

    private void judge(Window entry) {
        int first = entry.u8(0);
        int attributes = entry.u8(11);
        entries++;
        if (first < 0x20 && first != 0x05 && (attributes & 0x3F) != 0x0F || (attributes & 0xC0) != 0) {
            against++;
            return;
        }
        if (first == 0xE5 || (attributes & 0x3F) == 0x0F || (attributes & 0x08) != 0) {
            return;
        }
        long cluster = entry.u16le(26) | (geometry.kind() == FatKind.FAT32 ? (long) entry.u16le(20) << 16 : 0);
        long bytes = entry.u32le(28);
        if ((attributes & 0x10) != 0) {
            folder(cluster);
        } else if (bytes > 0 && bytes <= MOST_CHAIN * geometry.clusterBytes()) {
            file(cluster, (bytes + geometry.clusterBytes() - 1) / geometry.clusterBytes());
        }
    }

    private void folder(long cluster) {
        long at = geometry.exists(cluster) ? geometry.clusterByte(cluster) : -1;
        if (at >= 0 && !site.has(at, SLOT)) {
            return;
        }
        Window dot = at < 0 ? null : site.window(at, SLOT);
        boolean own = dot != null && dot.matches(0, ".          ")
                && (dot.u16le(26) | (geometry.kind() == FatKind.FAT32 ? (long) dot.u16le(20) << 16 : 0)) == cluster;
        agreeing += own ? 1 : 0;
        against += own ? 0 : 1;
    }

    private void file(long cluster, long needed) {
        Chain chain = Chain.follow(table, cluster, needed + 1);
        if (chain.end() == Chain.End.UNREAD) {
            return;
        }
        boolean fits = chain.end() == Chain.End.MARK && chain.clusters() == needed;
        agreeing += fits && needed > 1 ? 1 : 0;
        against += fits ? 0 : 1;
    }

    /** Whether both FATs hold the same bytes as far as both were read. */
    static boolean sameTables(VolumeSite site, Geometry geometry) {
        for (long at = 0; at < geometry.fatBytes(); at += CHUNK) {
            int length = (int) Math.min(CHUNK, geometry.fatBytes() - at);
            Window one = site.window(geometry.fatByte(0) + at, length);
            Window two = site.window(geometry.fatByte(1) + at, length);
            if (one.isRead(0, length) && two.isRead(0, length) && !Arrays.equals(one.raw(0, length), two.raw(0, length))) {
                return false;
            }
        }
        return true;
    }
}
