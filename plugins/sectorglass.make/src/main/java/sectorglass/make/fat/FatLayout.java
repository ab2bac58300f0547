package sectorglass.make.fat;

import sectorglass.make.VolumeDescription;
import sectorglass.make.VolumeKind;
import sectorglass.make.write.VolumeTarget;

/**
 * The arithmetic of a FAT volume (Microsoft FAT specification, "FAT Type Determination"): the number of clusters alone decides
 * the type.
 */
final class FatLayout {
    static final int ROOT_ENTRIES = 512;
    private static final int LARGEST_FAT12 = 4084;
    private static final int LARGEST_FAT16 = 65524;

    private final VolumeKind kind;
    private final int sectorSize;
    private final int sectorsPerCluster;
    private final long sectors;
    private final int reserved;
    private final int rootSectors;
    private long tableSectors;
    private long clusters;

    FatLayout(VolumeTarget target) {
        VolumeDescription volume = target.volume();
        kind = volume.kind();
        sectorSize = target.sectorSize();
        sectorsPerCluster = target.sectorsPerCluster();
        sectors = target.sectors();
        if (sectorsPerCluster > 128 || volume.clusterBytes() > 65536 || sectors > 0xFFFFFFFFL) {
            throw new IllegalArgumentException("FAT cannot tell clusterBytes=" + volume.clusterBytes() + " sectors=" + sectors);
        }
        reserved = kind == VolumeKind.FAT32 ? 32 : 1;
        rootSectors = kind == VolumeKind.FAT32 ? 0 : (ROOT_ENTRIES * 32 + sectorSize - 1) / sectorSize;
        tableSectors = 1;
        while (true) {
            clusters = (sectors - firstDataSector()) / sectorsPerCluster;
            long needed = (bytesOfEntries(clusters + 2) + sectorSize - 1) / sectorSize;
            if (needed <= tableSectors) {
                break;
            }
            tableSectors++;
            tableSectors = Math.max(tableSectors, needed - needed / 64 - 1);
        }
        check();
    }

    private void check() {
        boolean fits = switch (kind) {
            case FAT12 -> clusters >= 1 && clusters <= LARGEST_FAT12;
            case FAT16 -> clusters > LARGEST_FAT12 && clusters <= LARGEST_FAT16;
            default -> clusters > LARGEST_FAT16 && clusters <= 0x0FFFFFF4L;
        };
        if (!fits) {
            throw new IllegalArgumentException(clusters + " clusters are not " + kind);
        }
    }

    private long bytesOfEntries(long entries) {
        return switch (kind) {
            case FAT12 -> (entries * 3 + 1) / 2;
            case FAT16 -> entries * 2;
            default -> entries * 4;
        };
    }

    int reserved() {
        return reserved;
    }

    int rootSectors() {
        return rootSectors;
    }

    long tableSectors() {
        return tableSectors;
    }

    long clusters() {
        return clusters;
    }

    /** First cluster number that does not exist. */
    long clusterEnd() {
        return clusters + 2;
    }

    long tableByte(int copy) {
        return (reserved + copy * tableSectors) * sectorSize;
    }

    long rootByte() {
        return (reserved + 2 * tableSectors) * sectorSize;
    }

    long firstDataSector() {
        return reserved + 2 * tableSectors + rootSectors;
    }

    long heapByte() {
        return firstDataSector() * sectorSize;
    }
}
