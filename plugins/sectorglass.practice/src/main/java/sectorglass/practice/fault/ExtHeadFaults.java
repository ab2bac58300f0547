package sectorglass.practice.fault;

import java.io.IOException;
import java.util.List;

/** Faults of superblock, group descriptors and bitmaps of ext4 (Linux kernel documentation, filesystems/ext4). */
final class ExtHeadFaults {

    private ExtHeadFaults() {
    }

    static List<FaultKind> kinds() {
        return List.of(
                kind("ext.sb.checksum", 3, "superblock", site -> site.flip(new ExtBytes(site).superblock() + 0x3FC + site.below(4), site.someByte())),
                kind("ext.sb.state", 3, "superblock", site -> {
                    ExtBytes bytes = new ExtBytes(site);
                    site.put(bytes.superblock() + 0x3A, 2, 2 * site.below(2));
                    bytes.sumSuperblock(bytes.superblock());
                }),
                kind("ext.sb.free-sum", 4, "superblock", ExtHeadFaults::freeSum),
                kind("ext.sb.backup-equals", 3, "backup", site -> backup(site, 0x68 + site.below(16), 1, site.someByte())),
                kind("ext.sb.backup-group", 4, "backup", site -> backup(site, 0x5A, 2, 2 + site.below(5))),
                kind("ext.gd.checksum", 3, "groups", site -> site.flip(new ExtBytes(site).descriptor(site.below(2)) + 30 + site.below(2), site.someByte())),
                kind("ext.gd.directories", 4, "groups", ExtHeadFaults::directories),
                kind("ext.bitmap.checksum", 4, "groups", site -> {
                    ExtBytes bytes = new ExtBytes(site);
                    int group = site.below(2);
                    site.flip(bytes.descriptor(group) + 24 + site.below(2), site.someByte());
                    bytes.sumDescriptor(group);
                    site.seenAt(site.volume().firstByte() + site.number(bytes.descriptor(group), 4) * site.clusterBytes(), site.clusterBytes());
                }),
                kind("ext.bitmap.free-count", 4, "groups", ExtHeadFaults::freeCount),
                kind("ext.block.marked", 5, "groups", ExtHeadFaults::marked));
    }

    private static FaultKind kind(String check, int level, String zone, FaultKind.Planting planting) {
        return new FaultKind(check, check, level, Area.EXT, zone, planting);
    }

    private static void backup(Site site, int offset, int width, long value) throws IOException {
        ExtBytes bytes = new ExtBytes(site);
        site.put(bytes.backup() + offset, width, value);
        bytes.sumSuperblock(bytes.backup());
    }

    private static void freeSum(Site site) throws IOException {
        ExtBytes bytes = new ExtBytes(site);
        int offset = site.below(2) == 0 ? 0x0C : 0x10;
        site.put(bytes.superblock() + offset, 4, site.number(bytes.superblock() + offset, 4) + 1 + site.below(100));
        bytes.sumSuperblock(bytes.superblock());
    }

    private static void directories(Site site) throws IOException {
        ExtBytes bytes = new ExtBytes(site);
        site.put(bytes.descriptor(0) + 16, 2, site.number(bytes.descriptor(0) + 16, 2) + 1 + site.below(9));
        bytes.sumDescriptor(0);
    }

    /** The descriptor of a group counts more free blocks than its bitmap has; the sum in the superblock is made to fit. */
    private static void freeCount(Site site) throws IOException {
        ExtBytes bytes = new ExtBytes(site);
        int more = 1 + site.below(50);
        long at = bytes.descriptor(1) + 12;
        site.put(at, 2, site.number(at, 2) - more);
        bytes.sumDescriptor(1);
        site.quietly(bytes.superblock() + 0x0C, 4, site.number(bytes.superblock() + 0x0C, 4) - more);
        bytes.sumSuperblock(bytes.superblock());
        site.seenAt(site.volume().firstByte() + site.number(bytes.descriptor(1), 4) * site.clusterBytes(), site.clusterBytes());
    }

    /** A block of a file is marked free; counts and checksums fit. */
    private static void marked(Site site) throws IOException {
        ExtBytes bytes = new ExtBytes(site);
        Site.Entry file = site.file(2);
        long block = (file.place().runs().get(0).firstByte() - site.volume().firstByte()) / site.clusterBytes();
        long first = site.number(bytes.superblock() + 0x14, 4);
        long perGroup = site.number(bytes.superblock() + 0x20, 4);
        int group = (int) ((block - first) / perGroup);
        long bit = (block - first) % perGroup;
        long bitmap = site.volume().firstByte() + site.number(bytes.descriptor(group), 4) * site.clusterBytes();
        site.flip(bitmap + bit / 8, 1 << bit % 8);
        site.quietly(bytes.descriptor(group) + 12, 2, site.number(bytes.descriptor(group) + 12, 2) + 1);
        bytes.sumBitmap(group);
        site.quietly(bytes.superblock() + 0x0C, 4, site.number(bytes.superblock() + 0x0C, 4) + 1);
        bytes.sumSuperblock(bytes.superblock());
    }
}
