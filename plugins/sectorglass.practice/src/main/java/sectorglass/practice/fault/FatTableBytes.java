package sectorglass.practice.fault;

import java.io.IOException;

import sectorglass.make.VolumeKind;

/** The entries of the file allocation tables of the volume of a site (Microsoft FAT specification, "FAT Data Structure"). */
final class FatTableBytes {
    static final long END = 0x0FFFFFFFL;

    private final Site site;
    private final VolumeKind kind;

    FatTableBytes(Site site) {
        this.site = site;
        kind = site.volume().kind();
    }

    /** First byte of cluster 2. */
    long heap() throws IOException {
        long boot = site.place("boot");
        long tables = site.number(boot + 16, 1) * (kind == VolumeKind.FAT32 ? site.number(boot + 36, 4) : site.number(boot + 22, 2));
        long root = site.number(boot + 17, 2) * 32 / site.sectorSize();
        return boot + (site.number(boot + 14, 2) + tables + root) * site.sectorSize();
    }

    /** Number of the cluster that begins at a byte. */
    long cluster(long firstByte) throws IOException {
        return 2 + (firstByte - heap()) / site.clusterBytes();
    }

    /** Byte of an entry; of FAT12, the first of two that hold it. */
    long at(int copy, long cluster) {
        long table = site.place(copy == 0 ? "table 1" : "table 2");
        return switch (kind) {
            case FAT12 -> table + cluster * 3 / 2;
            case FAT16 -> table + cluster * 2;
            default -> table + cluster * 4;
        };
    }

    /** The bytes of an entry with a new value. */
    byte[] packed(int copy, long cluster, long value) throws IOException {
        if (kind == VolumeKind.FAT32) {
            return Site.bytes(value & 0x0FFFFFFFL, 4);
        }
        if (kind == VolumeKind.FAT16) {
            return Site.bytes(value & 0xFFFF, 2);
        }
        long old = site.number(at(copy, cluster), 2);
        long bits = value & 0xFFF;
        return Site.bytes(cluster % 2 == 0 ? old & 0xF000 | bits : old & 0x000F | bits << 4, 2);
    }

    /** Changes an entry in both tables, to be found. */
    void put(long cluster, long value) throws IOException {
        for (int copy = 0; copy < 2; copy++) {
            site.put(at(copy, cluster), packed(copy, cluster, value));
        }
    }

    /** Changes an entry in both tables, not to be found. */
    void quietly(long cluster, long value) throws IOException {
        for (int copy = 0; copy < 2; copy++) {
            site.quietly(at(copy, cluster), packed(copy, cluster, value));
        }
    }

    /** Frees the clusters of a file from one of its clusters on, counted from 0, and corrects the count of free ones. */
    void free(Site.Entry file, long from) throws IOException {
        long index = 0;
        long freed = 0;
        for (var run : file.place().runs()) {
            long first = cluster(run.firstByte());
            for (long i = 0; i < run.bytes() / site.clusterBytes(); i++, index++) {
                if (index >= from) {
                    quietly(first + i, 0);
                    freed++;
                }
            }
        }
        freeCount(freed);
    }

    /** Corrects the count of free clusters of a FAT32 volume. */
    void freeCount(long change) throws IOException {
        if (kind == VolumeKind.FAT32 && change != 0) {
            long at = site.place("info") + 488;
            site.quietly(at, 4, site.number(at, 4) + change);
        }
    }

    /** A number beyond the last cluster. */
    long beyond() {
        return switch (kind) {
            case FAT12 -> 0xFF0;
            case FAT16 -> 0xFFF0;
            default -> 0x0FFFFFF0L;
        };
    }
}
