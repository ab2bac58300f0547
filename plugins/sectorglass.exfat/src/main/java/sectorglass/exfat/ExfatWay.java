package sectorglass.exfat;

import java.util.List;
import java.util.Locale;

import sectorglass.disk.FileTree;
import sectorglass.disk.way.FileWay;
import sectorglass.disk.way.WayBuilder;
import sectorglass.disk.way.WayStep;
import sectorglass.image.ByteRange;
import sectorglass.image.Texts;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/** The way from the boot sector to a file. Source: Microsoft exFAT specification, sections 3.1, 4.1, 6.3 and 7.4 to 7.7. */
final class ExfatWay implements FileWay {
    private static final int SHOWN_LINKS = 8;

    private final ExfatVolume volume;
    private final Geometry geometry;
    private final long start;

    ExfatWay(ExfatVolume volume) {
        this.volume = volume;
        geometry = volume.found().geometry();
        start = volume.site().firstByte();
    }

    @Override
    public List<WayStep> way(List<String> parts, Locale locale) {
        return WayBuilder.run(new Texts(ExfatRules.class, "way", locale), way -> walk(way, parts));
    }

    private void walk(WayBuilder way, List<String> parts) {
        Fat fat = new Fat(volume.site(), geometry);
        boot(way);
        long cluster = geometry.rootCluster();
        long most = Directory.MOST_BYTES;
        Chain chain = Chain.follow(fat, cluster, Directory.MOST_BYTES / geometry.clusterBytes() + 1);
        boolean contiguous = false;
        for (int i = 0; i < parts.size(); i++) {
            Directory directory = Directory.of(volume.site(), geometry, chain, most);
            EntrySet set = new EntrySet();
            if (!find(directory, parts.get(i), set)) {
                way.step("directory", new ByteRange(start + geometry.clusterByte(cluster), Directory.SLOT), "exfat_directory", parts.get(i));
                if (!directory.allRead()) {
                    throw new UnreadException(directory.missing());
                }
                throw way.stop("absent", parts.get(i));
            }
            links(way, fat, chain, contiguous, (int) ((long) set.slot() * Directory.SLOT / geometry.clusterBytes()));
            cluster = entry(way, set, parts.get(i), i == parts.size() - 1);
            contiguous = set.noFatChain();
            most = set.dataLength();
            chain = contiguous ? Chain.contiguous(geometry, cluster, geometry.clustersOf(most)) : Chain.follow(fat, cluster, geometry.clustersOf(most));
        }
        if (parts.isEmpty()) {
            long at = start + geometry.clusterByte(cluster);
            way.step("root", new ByteRange(at, Directory.SLOT), "exfat_directory").next(at);
        }
    }

    private void boot(WayBuilder way) {
        Window boot = volume.found().layout() == null ? volume.site().window(0, BootSector.SIZE) : volume.found().layout().window();
        way.step(boot.start() == start ? "boot" : "backup", new ByteRange(boot.start(), BootSector.SIZE), "exfat_boot_sector");
        way.sum("sector", "2^" + way.number("sector-shift", boot, BootSector.SECTOR_SHIFT, 1), geometry.sectorBytes());
        way.sum("cluster-bytes", "2^" + boot.u8(BootSector.SECTOR_SHIFT) + " × 2^" + way.number("cluster-shift", boot, BootSector.CLUSTER_SHIFT, 1),
                geometry.clusterBytes());
        way.number("heap", boot, BootSector.HEAP_OFFSET, 4);
        way.number("root-cluster", boot, BootSector.ROOT_CLUSTER, 4);
        if (!geometry.exists(geometry.rootCluster())) {
            throw way.stop("cluster", geometry.rootCluster());
        }
        way.next(cluster(way, geometry.rootCluster()));
    }

    private long cluster(WayBuilder way, long number) {
        return way.sum("cluster", start + " + " + geometry.heapOffset() + " × " + geometry.sectorBytes() + " + (" + number + " − 2) × " + geometry.clusterBytes(),
                start + geometry.clusterByte(number));
    }

    /** Finds the set of a name; exact spelling goes before another use of capitals. */
    private static boolean find(Directory directory, String part, EntrySet set) {
        int loose = -1;
        EntrySet one = new EntrySet();
        for (int slot = 0; slot < directory.slots(); slot++) {
            if (!directory.isRead(slot)) {
                continue;
            }
            int type = directory.u8(slot, 0);
            if (type == 0) {
                break;
            }
            if (type != 0x85 || !TreeScan.take(directory, slot, one)) {
                continue;
            }
            String name = FileTree.part(one.name());
            if (name.equals(part)) {
                return TreeScan.take(directory, slot, set);
            }
            loose = loose < 0 && name.equalsIgnoreCase(part) ? slot : loose;
        }
        return loose >= 0 && TreeScan.take(directory, loose, set);
    }

    private void links(WayBuilder way, Fat fat, Chain chain, boolean contiguous, int clusters) {
        if (clusters == 0) {
            return;
        }
        long cluster = chain.first(0);
        if (contiguous) {
            way.step("run", new ByteRange(start + geometry.clusterByte(cluster), Directory.SLOT), "exfat_directory", clusters);
            way.next(cluster(way, cluster + clusters));
            return;
        }
        way.step("long-folder", new ByteRange(start + geometry.clusterByte(cluster), Directory.SLOT), "exfat_directory");
        way.next(way.sum("entry-place", start + " + " + geometry.fatByte() + " + " + cluster + " × 4", fat.where(cluster).start()));
        way.step("links", fat.where(cluster), "exfat_fat", clusters);
        for (int i = 0; i < clusters; i++) {
            long next = fat.entry(cluster);
            if (i < SHOWN_LINKS) {
                ByteRange where = fat.where(cluster);
                way.read("link", where, volume.site().image().window(where.start(), 4).bytes(0, 4), cluster + " → " + next);
            }
            cluster = next;
        }
        way.next(cluster(way, cluster));
    }

    private long entry(WayBuilder way, EntrySet set, String part, boolean last) {
        Window window = set.directory().window(set.slot(), set.count());
        way.step(set.folder() ? "folder" : "file", set.range(), "exfat_directory", part);
        int name = 2 * Directory.SLOT + 2;
        int units = Math.min(set.nameLength(), EntrySet.NAME_CHARACTERS);
        if (window.length() >= name + 2 * units) {
            way.read("name", window.range(name, 2 * units), window.bytes(name, 2 * units), set.name());
        }
        way.number("attributes", window, 4, 2);
        if (!last && !set.folder()) {
            throw way.stop("no-folder", part);
        }
        way.number("flags", window, Directory.SLOT + EntrySet.STREAM_FLAGS, 1);
        long cluster = way.number("first-cluster", window, Directory.SLOT + EntrySet.FIRST_CLUSTER, 4);
        if (way.number("length", window, Directory.SLOT + EntrySet.DATA_LENGTH, 8) == 0) {
            throw way.stop("empty", part);
        }
        if (!geometry.exists(cluster)) {
            throw way.stop("cluster", cluster);
        }
        way.next(cluster(way, cluster));
        return cluster;
    }
}
