package sectorglass.exfat;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Extent;
import sectorglass.disk.VolumeSite;

/**
 * Where the clusters of a file stand, and what is doubtful about that. Bytes beyond ValidDataLength read as zero, whatever stands there
 * (Microsoft exFAT specification, section 7.6.5).
 *
 * @param extents in order of the file
 * @param doubts sentences
 */
record Placement(List<Extent> extents, List<String> doubts) {

    /** Clusters in one file that are looked up one by one in the bitmap. */
    private static final long MOST_LOOKED_UP = 1L << 22;

    static Placement of(VolumeSite site, Fat fat, Bitmap bitmap, EntrySet set, boolean deleted) {
        Geometry geometry = fat.geometry();
        List<String> doubts = new ArrayList<>();
        List<Extent> extents = new ArrayList<>();
        long bytes = set.dataLength();
        long first = set.firstCluster();
        if (bytes <= 0) {
            if (bytes < 0) {
                doubts.add("Its length cannot be right.");
            }
            return new Placement(List.of(), List.copyOf(doubts));
        }
        if (!geometry.exists(first)) {
            doubts.add("Its first cluster is " + first + ", which does not exist.");
            return new Placement(List.of(), List.copyOf(doubts));
        }
        long needed = geometry.clustersOf(bytes);
        Chain chain = set.noFatChain() ? Chain.contiguous(geometry, first, needed) : Chain.follow(fat, first, needed);
        broken(geometry, set, chain, needed, doubts);
        if (deleted && !set.noFatChain()) {
            doubts.add("Deleted; an assumption: its old links in the FAT are taken as still valid.");
        }
        if (chain.end() == Chain.End.UNREAD && chain.clusters() < needed) {
            doubts.add("An assumption: the FAT was not read after cluster " + chain.last() + ", and the rest is taken to follow without a gap.");
        }
        long valid = Math.min(bytes, Math.max(0, set.validLength()));
        long offset = 0;
        Reuse reuse = new Reuse(bitmap, deleted);
        for (int i = 0; i < chain.runs(); i++) {
            offset = place(site, geometry, chain.first(i), chain.count(i), offset, valid, reuse, extents);
        }
        if (chain.end() == Chain.End.UNREAD && chain.clusters() < needed) {
            Chain rest = Chain.contiguous(geometry, chain.last() + 1, needed - chain.clusters());
            for (int i = 0; i < rest.runs(); i++) {
                offset = place(site, geometry, rest.first(i), rest.count(i), offset, valid, reuse, extents);
            }
        }
        if (valid < bytes) {
            extents.add(Extent.hole(valid, bytes - valid));
        }
        reuse.tell(doubts);
        return new Placement(List.copyOf(extents), List.copyOf(doubts));
    }

    /** Clusters that nothing owns. @param gaps whether directories, or the FAT, were not read everywhere */
    static Placement lost(VolumeSite site, Fat fat, Chain chain, boolean gaps) {
        List<Extent> extents = new ArrayList<>();
        long offset = 0;
        for (int run = 0; run < chain.runs(); run++) {
            long length = chain.count(run) * fat.geometry().clusterBytes();
            extents.add(Extent.plain(offset, length, site.firstByte() + fat.geometry().clusterByte(chain.first(run))));
            offset += length;
        }
        return new Placement(List.copyOf(extents), List.of(gaps
                ? "No directory entry that was read leads here; its owner may be in a directory that was not read."
                : "No directory entry leads here, but the bitmap calls its clusters used.",
                "An assumption: they are taken as one file of whole clusters" + (chain.runs() > 1 ? ", in the order of the FAT." : ".")));
    }

    private static void broken(Geometry geometry, EntrySet set, Chain chain, long needed, List<String> doubts) {
        if (set.noFatChain() ? chain.end() == Chain.End.OUTSIDE : chain.clusters() < needed && chain.end() != Chain.End.UNREAD) {
            doubts.add(set.noFatChain() ? "Its run ends beyond the last cluster " + geometry.lastCluster() + "."
                    : "Its chain has " + chain.clusters() + " clusters; its length needs " + needed + ".");
        }
    }

    private static long place(VolumeSite site, Geometry geometry, long first, long count, long offset, long valid, Reuse reuse,
            List<Extent> extents) {
        long at = offset;
        long from = first;
        long left = count;
        while (left > 0 && at < valid) {
            long run = reuse.run(from, left);
            boolean taken = run < 0;
            run = Math.abs(run);
            long length = Math.min(run * geometry.clusterBytes(), valid - at);
            extents.add(taken ? Extent.unknown(at, length) : Extent.plain(at, length, site.firstByte() + geometry.clusterByte(from)));
            at += run * geometry.clusterBytes();
            from += run;
            left -= run;
        }
        return offset + count * geometry.clusterBytes();
    }

    /** Asks the bitmap which clusters of a deleted file were given away. */
    private static final class Reuse {
        private final Bitmap bitmap;
        private final boolean deleted;
        private long looked;
        private long taken;
        private long unread;

        Reuse(Bitmap bitmap, boolean deleted) {
            this.bitmap = bitmap;
            this.deleted = deleted;
        }

        /** Length of the run of clusters that are alike; negative where they were given away. */
        long run(long first, long most) {
            if (!deleted || bitmap == null || looked > MOST_LOOKED_UP) {
                return most;
            }
            int bit = bitmap.bit(first);
            long length = 1;
            while (length < most && bitmap.bit(first + length) == bit) {
                length++;
            }
            looked += length;
            taken += bit == 1 ? length : 0;
            unread += bit == Bitmap.UNREAD ? length : 0;
            return bit == 1 ? -length : length;
        }

        void tell(List<String> doubts) {
            if (!deleted) {
                return;
            }
            if (taken > 0) {
                doubts.add("Deleted, and " + taken + " of its clusters belong to something else by now.");
            } else if (bitmap == null || unread > 0) {
                doubts.add("Deleted; whether its clusters were given away is not known: the bitmap was not read there.");
            } else {
                doubts.add("Deleted; none of its clusters has been given away.");
            }
        }
    }
}
