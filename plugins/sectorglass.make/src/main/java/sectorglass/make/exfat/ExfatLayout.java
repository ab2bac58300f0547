package sectorglass.make.exfat;

import sectorglass.make.write.VolumeTarget;

/** The arithmetic of an exFAT volume (Microsoft exFAT specification, sections 2 and 3.1). */
final class ExfatLayout {
    private static final long LARGEST_COUNT = 0xFFFFFFF5L;

    private final int sectorSize;
    private final int sectorsPerCluster;
    private final long sectors;
    private final long tableOffset;
    private long tableSectors = 1;
    private long heapOffset;
    private long clusters;

    ExfatLayout(VolumeTarget target) {
        sectorSize = target.sectorSize();
        sectorsPerCluster = target.sectorsPerCluster();
        sectors = target.sectors();
        if (target.volume().clusterBytes() > 32 << 20 || target.medium().bytes() < 1 << 20) {
            throw new IllegalArgumentException("no exFAT: clusterBytes=" + target.volume().clusterBytes() + " bytes="
                    + target.medium().bytes());
        }
        tableOffset = Math.max(24, 65536 / sectorSize);
        while (true) {
            heapOffset = align(tableOffset + tableSectors);
            clusters = Math.min((sectors - heapOffset) / sectorsPerCluster, LARGEST_COUNT);
            long needed = ((clusters + 2) * 4 + sectorSize - 1) / sectorSize;
            if (needed <= tableSectors) {
                break;
            }
            tableSectors = Math.max(tableSectors + 1, needed - needed / 64);
        }
        if (clusters < 4) {
            throw new IllegalArgumentException("no exFAT: " + clusters + " clusters");
        }
    }

    private long align(long sector) {
        return (sector + sectorsPerCluster - 1) / sectorsPerCluster * sectorsPerCluster;
    }

    long tableOffset() {
        return tableOffset;
    }

    long tableSectors() {
        return tableSectors;
    }

    long heapOffset() {
        return heapOffset;
    }

    long clusters() {
        return clusters;
    }

    long tableByte() {
        return tableOffset * sectorSize;
    }

    long heapByte() {
        return heapOffset * sectorSize;
    }

    long sectors() {
        return sectors;
    }
}
