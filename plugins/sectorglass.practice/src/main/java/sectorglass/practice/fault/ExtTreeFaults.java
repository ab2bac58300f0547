package sectorglass.practice.fault;

import java.io.IOException;
import java.util.List;

/** Faults of inodes, extents and folders of ext4 (Linux kernel documentation, filesystems/ext4: inodes, extent tree, directory entries). */
final class ExtTreeFaults {
    private static final int EXTENTS = 0x28;

    private ExtTreeFaults() {
    }

    static List<FaultKind> kinds() {
        return List.of(
                kind("ext.inode.checksum", 3, "inodes", site -> site.flip(file(site).place().entryByte() + 0x7C + site.below(2), site.someByte())),
                kind("ext.inode.blocks-count", 4, "inodes", site -> {
                    Site.Entry file = file(site);
                    long at = file.place().entryByte() + 0x1C;
                    site.put(at, 4, site.number(at, 4) + 2L * (1 + site.below(40)));
                    new ExtBytes(site).sumInode(file.place());
                }),
                kind("ext.links", 4, "inodes", site -> {
                    Site.Entry file = file(site);
                    site.put(file.place().entryByte() + 0x1A, 2, 2 + site.below(6));
                    new ExtBytes(site).sumInode(file.place());
                }),
                kind("ext.extent.header", 5, "inodes", site -> {
                    Site.Entry file = file(site);
                    site.put(file.place().entryByte() + EXTENTS, 2, 0xF30B);
                    new ExtBytes(site).sumInode(file.place());
                }),
                kind("ext.extent.range", 5, "inodes", site -> {
                    Site.Entry file = file(site);
                    site.put(file.place().entryByte() + EXTENTS + 12 + 8, 4, 0x100000L + site.below(0x100000));
                    new ExtBytes(site).sumInode(file.place());
                }),
                kind("ext.dir.checksum", 3, "folders", site -> site.flip(block(folder(site)) + site.clusterBytes() - 4 + site.below(4), site.someByte())),
                kind("ext.dir.type", 4, "folders", ExtTreeFaults::type),
                kind("ext.dir.dots", 5, "folders", ExtTreeFaults::dots));
    }

    private static FaultKind kind(String check, int level, String zone, FaultKind.Planting planting) {
        return new FaultKind(check, check, level, Area.EXT, zone, planting);
    }

    private static Site.Entry file(Site site) {
        return site.pick(site.entries(e -> !e.folder() && e.place().runs().size() == 1), "a file");
    }

    private static Site.Entry folder(Site site) {
        return site.pick(site.entries(e -> e.folder() && e.place().runs().size() == 1), "a folder");
    }

    private static long block(Site.Entry folder) {
        return folder.place().runs().get(0).firstByte();
    }

    /** The third entry, the first behind the two dots, says another type. */
    private static void type(Site site) throws IOException {
        Site.Entry folder = folder(site);
        long third = block(folder) + 24;
        site.put(third + 7, 1, 3 + site.below(4));
        new ExtBytes(site).sumFolder(folder.place(), block(folder));
    }

    /** The entry "." leads to another inode. */
    private static void dots(Site site) throws IOException {
        Site.Entry folder = folder(site);
        site.put(block(folder), 4, 11);
        new ExtBytes(site).sumFolder(folder.place(), block(folder));
    }
}
