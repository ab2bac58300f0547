package sectorglass.fat;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Extent;
import sectorglass.disk.VolumeSite;

/**
 * Where the clusters of a file stand, as far as the FAT tells, and what is assumed beyond that. Assumptions are common practice, no source:
 * a chain goes on without a gap through entries that were not read; a deleted file has one run from its first cluster on.
 *
 * @param extents in order of the file
 * @param doubts sentences about what is assumed or broken
 */
record Placement(List<Extent> extents, List<String> doubts) {

    /** The chain of a file that is not deleted. */
    static Placement live(VolumeSite site, FatTable table, int first, long bytes) {
        Builder builder = new Builder(site, table, bytes);
        long needed = builder.clusters();
        if (bytes == 0) {
            return builder.done();
        }
        if (first == 0 || !table.exists(first)) {
            builder.doubts.add("Its first cluster is " + first + ", which does not exist.");
            return builder.done();
        }
        int cluster = first;
        long assumed = 0;
        FatKind kind = table.geometry().kind();
        for (long i = 0; i < needed; i++) {
            int entry = table.entry(cluster);
            if (entry == 0 || entry == kind.bad()) {
                builder.doubts.add("Its chain runs into cluster " + cluster + ", which is marked " + (entry == 0 ? "free" : "bad") + ".");
                break;
            }
            builder.add(cluster);
            boolean last = i + 1 == needed;
            if (entry == FatTable.UNREAD) {
                assumed += last ? 0 : 1;
                entry = cluster + 1;
            }
            if (last) {
                break;
            }
            if (kind.isEnd(entry)) {
                builder.doubts.add("Its chain ends after " + (i + 1) + " clusters; its size needs " + needed + ".");
                break;
            }
            if (!table.exists(entry)) {
                builder.doubts.add("Its chain breaks at cluster " + cluster + ", whose entry is " + kind.hex(entry) + ".");
                break;
            }
            cluster = entry;
        }
        if (assumed > 0) {
            builder.doubts.add("An assumption: at " + assumed + " places the entry of the FAT was not read, and the next cluster is taken to follow.");
        }
        return builder.done();
    }

    /** The run that a deleted file is assumed to have. */
    static Placement deleted(VolumeSite site, FatTable table, int first, long bytes, boolean upperWordLost) {
        Builder builder = new Builder(site, table, bytes);
        if (bytes == 0) {
            return builder.done();
        }
        if (!table.exists(first)) {
            builder.doubts.add("Deleted, and its first cluster " + first + " does not exist: nothing tells where it stood.");
            return builder.done();
        }
        long needed = builder.clusters();
        long reused = 0;
        long unread = 0;
        for (long i = 0; i < needed; i++) {
            int entry = table.entry((int) Math.min(first + i, Integer.MAX_VALUE));
            if (first + i > table.lastCluster()) {
                builder.doubts.add("The run would end beyond the volume.");
                break;
            }
            if (i == 0 && entry > 0) {
                builder.doubts.add("Deleted, and its first cluster " + first + " belongs to something else by now.");
                return builder.done();
            }
            unread += entry == FatTable.UNREAD ? 1 : 0;
            if (entry > 0) {
                reused++;
                builder.skip();
            } else {
                builder.add((int) (first + i));
            }
        }
        builder.doubts.add(reused == 0
                ? "Deleted; the chain is gone. An assumption: it is taken as one run from cluster " + first + " on, all of it free now."
                : "Deleted; the chain is gone. An assumption: it is taken as one run from cluster " + first + " on, of which " + reused
                + " clusters are in use by something else now: overwritten, or the file had more than one run.");
        if (unread > 0) {
            builder.doubts.add("Whether " + unread + " of its clusters were given away is not known: the FAT was not read there.");
        }
        if (upperWordLost) {
            builder.doubts.add("The upper half of its first cluster is 0, as some systems leave it when they delete; it may have stood "
                    + "65536 clusters or a multiple of that later.");
        }
        return builder.done();
    }

    private static final class Builder {
        private final VolumeSite site;
        private final Geometry geometry;
        private final long bytes;
        private final List<Extent> extents = new ArrayList<>();
        private final List<String> doubts = new ArrayList<>();
        private long offset;

        Builder(VolumeSite site, FatTable table, long bytes) {
            this.site = site;
            this.geometry = table.geometry();
            this.bytes = bytes;
        }

        long clusters() {
            return (bytes + geometry.clusterBytes() - 1) / geometry.clusterBytes();
        }

        void add(int cluster) {
            long length = Math.min(geometry.clusterBytes(), bytes - offset);
            long at = site.firstByte() + geometry.clusterByte(cluster);
            Extent before = extents.isEmpty() ? null : extents.get(extents.size() - 1);
            if (before != null && before.placed() && before.imageByte() + before.length() == at && before.end() == offset) {
                extents.set(extents.size() - 1, Extent.plain(before.offset(), before.length() + length, before.imageByte()));
            } else {
                extents.add(Extent.plain(offset, length, at));
            }
            offset += length;
        }

        void skip() {
            offset += Math.min(geometry.clusterBytes(), bytes - offset);
        }

        Placement done() {
            return new Placement(List.copyOf(extents), List.copyOf(doubts));
        }
    }
}
