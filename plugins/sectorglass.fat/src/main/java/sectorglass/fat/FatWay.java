package sectorglass.fat;

import java.util.List;
import java.util.Locale;

import sectorglass.disk.FileTree;
import sectorglass.disk.way.FileWay;
import sectorglass.disk.way.WayBuilder;
import sectorglass.disk.way.WayStep;
import sectorglass.image.ByteRange;
import sectorglass.image.Texts;
import sectorglass.image.Window;

/** The way from the boot sector to a file. Source: Microsoft FAT specification, "FAT Volume Structure", "FAT Directory Structure". */
final class FatWay implements FileWay {
    private static final int SHOWN_LINKS = 8;

    private final FatVolume volume;
    private final Geometry geometry;
    private final long start;

    FatWay(FatVolume volume) {
        this.volume = volume;
        geometry = volume.found().geometry();
        start = volume.site().firstByte();
    }

    @Override
    public List<WayStep> way(List<String> parts, Locale locale) {
        return WayBuilder.run(new Texts(FatRules.class, "way", locale), way -> walk(way, parts));
    }

    private void walk(WayBuilder way, List<String> parts) {
        FatTable table = volume.table();
        boot(way);
        Directory directory = geometry.kind() == FatKind.FAT32 ? null : Directory.fixedRoot(volume.site(), geometry);
        long cluster = geometry.rootCluster();
        for (int i = 0; i < parts.size(); i++) {
            String part = parts.get(i);
            Chain chain = directory == null ? Chain.follow(table, cluster, Directory.MOST_SLOTS * 32L / geometry.clusterBytes() + 1) : null;
            Directory here = directory != null ? directory : Directory.of(volume.site(), geometry, chain);
            directory = null;
            int slot = find(here, part);
            if (slot < 0) {
                way.step("directory", new ByteRange(chain == null ? start + geometry.fatByte(geometry.fats()) : start + geometry.clusterByte(cluster),
                        Directory.SLOT), "fat_directory", part);
                throw here.allRead() ? way.stop("absent", part) : new sectorglass.image.UnreadException(here.missing());
            }
            links(way, table, chain, (int) ((long) slot * Directory.SLOT / geometry.clusterBytes()));
            boolean last = i == parts.size() - 1;
            cluster = entry(way, here, slot, part, last);
        }
        if (parts.isEmpty()) {
            long at = directory == null ? start + geometry.clusterByte(cluster) : directory.address(0, 0);
            way.step("root", new ByteRange(at, Directory.SLOT), "fat_directory").next(at);
        }
    }

    private void boot(WayBuilder way) {
        Window boot = volume.found().layout() == null ? volume.site().window(0, BootSector.SIZE) : volume.found().layout().window();
        way.step(boot.start() == start ? "boot" : "backup", new ByteRange(boot.start(), BootSector.SIZE), geometry.kind() == FatKind.FAT32 ? "fat32_boot_sector" : "fat_boot_sector");
        int bytes = geometry.sectorBytes();
        way.number("sector-bytes", boot, BootSector.BYTES_PER_SECTOR, 2);
        way.number("cluster-sectors", boot, BootSector.SECTORS_PER_CLUSTER, 1);
        way.number("reserved", boot, BootSector.RESERVED, 2);
        way.number("fats", boot, BootSector.FATS, 1);
        boolean wide = geometry.kind() == FatKind.FAT32;
        way.number("fat-sectors", boot, wide ? BootSector.FAT_SIZE32 : BootSector.FAT_SIZE16, wide ? 4 : 2);
        String tables = geometry.firstFat() + " + " + geometry.fats() + " × " + geometry.fatSectors();
        if (!wide) {
            long slots = way.number("root-entries", boot, BootSector.ROOT_ENTRIES, 2);
            way.sum("first-data", tables + " + (" + slots + " × 32 + " + (bytes - 1) + ") ÷ " + bytes, geometry.firstData());
            way.next(way.sum("fixed-root", start + " + (" + tables + ") × " + bytes, start + geometry.rootSector() * bytes));
            return;
        }
        way.number("root-cluster", boot, BootSector.ROOT_CLUSTER, 4);
        way.sum("first-data", tables, geometry.firstData());
        if (!geometry.exists(geometry.rootCluster())) {
            throw way.stop("cluster", geometry.rootCluster());
        }
        way.next(cluster(way, geometry.rootCluster()));
    }

    /** The arithmetic from a cluster to its first byte. */
    private long cluster(WayBuilder way, long number) {
        return way.sum("cluster", start + " + (" + geometry.firstData() + " + (" + number + " − 2) × " + geometry.clusterSectors() + ") × " + geometry.sectorBytes(),
                start + geometry.clusterByte(number));
    }

    private int find(Directory directory, String part) {
        int loose = -1;
        for (int slot = 0; slot < directory.slots(); slot++) {
            if (!directory.isRead(slot)) {
                continue;
            }
            int first = directory.u8(slot, 0);
            if (first == 0) {
                break;
            }
            if (first == 0xE5 || (directory.u8(slot, 11) & 0x08) != 0 || first == '.') {
                continue;
            }
            String name = FileTree.part(Names.at(directory, slot));
            if (name.equals(part)) {
                return slot;
            }
            if (loose < 0 && (name.equalsIgnoreCase(part) || FileTree.part(Names.shortName(directory, slot)).equalsIgnoreCase(part))) {
                loose = slot;
            }
        }
        return loose;
    }

    /** The entries of the table that lead to the cluster of a folder in which the slot stands. */
    private void links(WayBuilder way, FatTable table, Chain chain, int clusters) {
        if (chain == null || clusters == 0) {
            return;
        }
        long cluster = chain.first(0);
        way.step("long-folder", new ByteRange(start + geometry.clusterByte(cluster), Directory.SLOT), "fat_directory");
        long place = geometry.firstFat() * (long) geometry.sectorBytes();
        way.next(way.sum("entry-place", start + " + " + place + " + " + cluster + " × " + geometry.kind().bits() + " ÷ 8", table.where(cluster, 0).start()));
        way.step("links", table.where(cluster, 0), geometry.kind().name().toLowerCase(Locale.ROOT) + "_table", clusters);
        for (int i = 0; i < clusters; i++) {
            long next = table.entry((int) cluster);
            if (i < SHOWN_LINKS) {
                link(way, table, cluster, next);
            }
            cluster = next;
        }
        way.next(cluster(way, cluster));
    }

    private void link(WayBuilder way, FatTable table, long cluster, long value) {
        ByteRange where = table.where(cluster, 0);
        way.read("link", where, volume.site().image().window(where.start(), (int) where.length()).bytes(0, (int) where.length()), cluster + " → " + value);
    }

    private long entry(WayBuilder way, Directory directory, int slot, String part, boolean last) {
        FatKind kind = geometry.kind();
        ByteRange where = new ByteRange(directory.address(slot, 0), Directory.SLOT);
        Window window = volume.site().image().window(where.start(), Directory.SLOT);
        Slot fields = Slot.of(directory, slot, kind);
        way.step(fields.folder() ? "folder" : "file", where, "fat_directory", part);
        way.read("name", window.range(0, 11), window.bytes(0, 11), Names.at(directory, slot));
        way.number("attributes", window, 11, 1);
        long low = way.number("cluster-low", window, 26, 2);
        long cluster = low;
        if (kind == FatKind.FAT32) {
            long high = way.number("cluster-high", window, 20, 2);
            cluster = way.sum("halves", high + " × 65536 + " + low, high << 16 | low);
        }
        if (!last && !fields.folder()) {
            throw way.stop("no-folder", part);
        }
        if (!fields.folder() && way.number("size", window, 28, 4) == 0) {
            throw way.stop("empty", part);
        }
        if (!geometry.exists(cluster)) {
            throw way.stop("cluster", cluster);
        }
        way.next(cluster(way, cluster));
        return cluster;
    }
}
