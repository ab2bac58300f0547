package sectorglass.ntfs;

import java.util.List;

import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/**
 * $Bitmap: which clusters are in use, one bit each. Read piece by piece; a bit that was not read is unknown and to be treated as used.
 * Source: Linux kernel fs/ntfs3/bitmap.c.
 */
final class ClusterMap {
    static final int RECORD = 6;
    private static final int STEP = 1 << 20;
    /** More clusters of the map than any volume has: keeps the sums in 63 bits. */
    private static final long MOST_CLUSTERS = 1L << 36;

    private final FileTable table;
    private final Geometry geometry;
    private final FileStream stream;

    ClusterMap(FileTable table) {
        this.table = table;
        this.geometry = table.geometry();
        FileRecord file = FileRecord.of(table, RECORD);
        this.stream = file == null ? null : file.stream(AttributeType.DATA, "").filter(s -> !s.resident).orElse(null);
    }

    /** $Bitmap's stream, or null where its record cannot be used. */
    FileStream stream() {
        return stream;
    }

    /** Clusters whose bits can be read; what lies beyond is unknown. */
    private long readable() {
        if (stream == null) {
            return 0;
        }
        long bytes = Math.min(MOST_CLUSTERS, stream.runs.readableEnd(geometry, table.image().bytes())) * geometry.clusterBytes();
        bytes = stream.sized ? Math.min(bytes, stream.real) : bytes;
        return Math.min(geometry.clusters(), bytes * 8);
    }

    /** Sees pieces of the map in order. */
    interface Visitor {
        /**
         * @param first cluster of the first bit
         * @param count clusters in the piece
         * @param part holds the bits from byte 0 on
         */
        void piece(long first, int count, StreamPart part);
    }

    /** Shows the bits of these clusters, a piece at a time; pieces begin at multiples of 8 clusters. */
    void read(long from, long to, Visitor visitor) {
        long end = Math.min(to, readable());
        for (long first = from & ~7L; first < end; first += STEP * 8L) {
            int count = (int) Math.min(STEP * 8L, end - first);
            visitor.piece(first, count, StreamPart.read(table.image(), geometry, stream.runs, first / 8, (count + 7) / 8));
        }
    }

    /** How many clusters are in use, free and unknown, because that part of the map was not read. */
    record Count(long used, long free, long unknown) { }

    /** Counts without keeping anything. */
    Count count() {
        long[] sums = {0, 0};
        read(0, geometry.clusters(), (first, count, part) -> {
            for (int block = 0; block < count; block += 4096) {
                int bits = Math.min(4096, count - block);
                if (part.isRead(block / 8, (bits + 7) / 8)) {
                    long set = 0;
                    for (int at = block; at < block + bits; at += 8) {
                        int mask = block + bits - at < 8 ? (1 << block + bits - at) - 1 : 0xFF;
                        set += Integer.bitCount(part.bytes[at >> 3] & mask);
                    }
                    sums[0] += set;
                    sums[1] += bits - set;
                }
            }
        });
        return new Count(sums[0], sums[1], geometry.clusters() - sums[0] - sums[1]);
    }

    /** The sectors in use, free and unknown. */
    record States(SectorRanges used, SectorRanges free, SectorRanges unknown) { }

    States states() {
        SectorRanges.Builder used = new SectorRanges.Builder();
        SectorRanges.Builder free = new SectorRanges.Builder();
        SectorRanges.Builder unknown = new SectorRanges.Builder();
        read(0, geometry.clusters(), (first, count, part) -> {
            int at = 0;
            while (at < count) {
                int blockEnd = Math.min(count, (at / 4096 + 1) * 4096);
                if (!part.isRead(at / 8, (blockEnd - at + 7) / 8)) {
                    add(unknown, first + at, blockEnd - at);
                    at = blockEnd;
                    continue;
                }
                while (at < blockEnd) {
                    boolean set = bit(part.bytes, at);
                    int to = runEnd(part.bytes, at, blockEnd, set);
                    add(set ? used : free, first + at, to - at);
                    at = to;
                }
            }
        });
        if (readable() < geometry.clusters()) {
            add(unknown, readable(), geometry.clusters() - readable());
        }
        return new States(used.build(), free.build(), unknown.build());
    }

    static boolean bit(byte[] bits, int at) {
        return (bits[at >> 3] >> (at & 7) & 1) != 0;
    }

    /** First place after a run of equal bits. */
    static int runEnd(byte[] bits, int from, int limit, boolean set) {
        int at = from;
        byte full = (byte) (set ? 0xFF : 0);
        while (at < limit) {
            if ((at & 7) == 0 && bits[at >> 3] == full) {
                at += 8;
            } else if (bit(bits, at) == set) {
                at++;
            } else {
                return at;
            }
        }
        return limit;
    }

    private void add(SectorRanges.Builder builder, long lcn, long count) {
        SectorRange sectors = sectors(lcn, count);
        builder.add(sectors.first(), sectors.count());
    }

    /** The sectors of the image that hold the clusters. */
    SectorRange sectors(long lcn, long count) {
        int size = table.image().sectorSize();
        long first = geometry.clusterByte(lcn) / size;
        long end = (geometry.clusterByte(lcn + count) + size - 1) / size;
        return new SectorRange(first, end - first);
    }

    /** Says whether clusters of a deleted stream are in use again, in a sentence. */
    void reused(FileStream deleted, List<String> doubts) {
        long[] sums = new long[3];
        for (int i = 0; i < deleted.runs.runs(); i++) {
            long lcn = deleted.runs.lcn(i);
            if (lcn == RunList.HOLE || !geometry.holds(lcn, deleted.runs.count(i))) {
                continue;
            }
            long end = lcn + deleted.runs.count(i);
            read(lcn, end, (first, count, part) -> {
                for (int at = (int) Math.max(0, lcn - first); at < count; at++) {
                    boolean known = part.isRead(at / 8, 1);
                    sums[known ? bit(part.bytes, at) ? 0 : 1 : 2]++;
                }
            });
        }
        if (sums[0] > 0) {
            doubts.add(sums[0] + " of " + (sums[0] + sums[1] + sums[2])
                    + " clusters of this deleted file are in use again: its content is probably overwritten there.");
        }
        if (sums[2] > 0) {
            doubts.add("Whether " + sums[2] + " clusters of this deleted file are in use again is not known: that part of $Bitmap was not read.");
        }
    }
}
