package sectorglass.exfat;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Allocation;
import sectorglass.disk.ClaimIndex;
import sectorglass.disk.CompactTree;
import sectorglass.disk.Extent;
import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/** Which clusters are in use, by the allocation bitmap, and whose they are, by the entry sets. */
final class ExfatAllocation implements Allocation {

    private static final int MOST_OWNERS = 4096;

    private final ExfatVolume volume;
    private final VolumeSite site;
    private final Geometry geometry;
    private final ExfatFiles files;
    private SectorRanges used;
    private SectorRanges free;
    private SectorRanges unknown;
    private ClaimIndex claims;

    ExfatAllocation(ExfatVolume volume, ExfatFiles files) {
        this.volume = volume;
        this.site = volume.site();
        this.geometry = volume.found().geometry();
        this.files = files;
    }

    @Override
    public int clusterBytes() {
        return geometry.clusterBytes();
    }

    private synchronized void scan() {
        if (used != null) {
            return;
        }
        Bitmap bitmap = volume.bitmap();
        List<List<SectorRange>> states = List.of(new ArrayList<>(), new ArrayList<>(), new ArrayList<>());
        states.get(1).add(area(0, geometry.heapOffset() * geometry.sectorBytes()));
        long start = 2;
        int before = -2;
        // what lies beyond the image need not be told cluster by cluster
        long last = Math.min(geometry.lastCluster(), Math.max(1, geometry.clusterAt(Math.max(0, site.image().bytes() - 1 - site.firstByte()))));
        last = site.image().bytes() - site.firstByte() >= geometry.clusterByte(geometry.lastCluster()) ? geometry.lastCluster() : last;
        for (long cluster = 2; cluster <= last + 1; cluster++) {
            int bit = cluster > last ? -2 : bitmap == null ? Bitmap.UNREAD : bitmap.bit(cluster);
            if (bit != before) {
                if (before > -2) {
                    states.get(before < 0 ? 2 : before).add(area(geometry.clusterByte(start), (cluster - start) * geometry.clusterBytes()));
                }
                start = cluster;
                before = bit;
            }
        }
        used = SectorRanges.of(states.get(1));
        free = SectorRanges.of(states.get(0)).minus(used);
        unknown = SectorRanges.of(states.get(2)).minus(used).minus(free);
    }

    private SectorRange area(long volumeByte, long length) {
        return new ByteRange(site.firstByte() + volumeByte, length).sectors(site.image().sectorSize());
    }

    @Override
    public SectorRanges used() {
        scan();
        return used;
    }

    @Override
    public SectorRanges free() {
        scan();
        return free;
    }

    @Override
    public SectorRanges unknown() {
        scan();
        return unknown;
    }

    @Override
    public SectorRanges metadata() {
        List<SectorRange> all = new ArrayList<>();
        all.add(area(0, geometry.heapOffset() * geometry.sectorBytes()));
        tables().forEach(all::add);
        all.addAll(folders(Progress.NONE));
        return SectorRanges.of(all);
    }

    /** The sectors of bitmap and up-case table, as the root directory names them. */
    List<SectorRange> tables() {
        List<SectorRange> all = new ArrayList<>();
        volume.tables().forEach(chain -> add(chain, all));
        return all;
    }

    /** The sectors of all folders. */
    List<SectorRange> folders(Progress progress) {
        FolderList list = files.folders(progress);
        List<SectorRange> all = new ArrayList<>();
        for (int i = 0; i < list.size(); i++) {
            add(list.chain(i), all);
        }
        return all;
    }

    private void add(Chain chain, List<SectorRange> all) {
        for (int run = 0; run < chain.runs(); run++) {
            all.add(area(geometry.clusterByte(chain.first(run)), chain.count(run) * geometry.clusterBytes()));
        }
    }

    private synchronized ClaimIndex claims(Progress progress) {
        if (claims == null) {
            ClaimIndex index = new ClaimIndex();
            CompactTree tree = files.compact(progress);
            for (int id = 0; id < tree.size(); id++) {
                if (!tree.folder(id) && tree.bytes(id) > 0) {
                    for (Extent extent : files.placement(tree, id, tree.key(id)).extents()) {
                        if (extent.placed()) {
                            index.add(extent.imageByte(), extent.length(), id, extent.offset());
                        }
                    }
                }
                if ((id & 1023) == 0) {
                    progress.checkCancelled();
                    progress.at("owners", id, tree.size());
                }
            }
            index.sort();
            claims = index;
        }
        return claims;
    }

    @Override
    public List<Owner> owners(SectorRange range, Progress progress) {
        int size = site.image().sectorSize();
        List<Owner> owners = new ArrayList<>();
        add(range, area(0, geometry.fatOffset() * geometry.sectorBytes()), "boot regions", owners);
        add(range, area(geometry.fatOffset() * geometry.sectorBytes(), geometry.fatLength() * geometry.fats() * geometry.sectorBytes()), "FAT",
                owners);
        tables().forEach(area -> add(range, area, "bitmap or up-case table", owners));
        folders(progress).forEach(area -> add(range, area, "directory", owners));
        ClaimIndex index = claims(progress);
        CompactTree tree = files.compact(progress);
        long from = range.first() * size;
        long to = range.end() * size;
        for (int row = index.firstNear(from); row < index.rows() && index.start(row) < to && owners.size() < MOST_OWNERS; row++) {
            if (index.start(row) + index.length(row) <= from) {
                continue;
            }
            SectorRange sectors = new ByteRange(index.start(row), index.length(row)).sectors(size);
            long first = Math.max(range.first(), sectors.first());
            int id = index.entry(row);
            owners.add(new Owner(id, "", index.offset(row) + Math.max(0, first * size - index.start(row)),
                    new SectorRange(first, Math.min(range.end(), sectors.end()) - first),
                    tree.path(id) + (tree.deleted(id) ? " (deleted)" : "")));
        }
        return List.copyOf(owners);
    }

    private static void add(SectorRange range, SectorRange area, String name, List<Owner> owners) {
        long first = Math.max(range.first(), area.first());
        long end = Math.min(range.end(), area.end());
        if (end > first && owners.size() < MOST_OWNERS) {
            owners.add(new Owner(-1, "", 0, new SectorRange(first, end - first), name));
        }
    }
}
