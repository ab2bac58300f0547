package sectorglass.fat;

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

/** Which clusters are in use, by the FAT, and whose they are, by the chains of all entries. */
final class FatAllocation implements Allocation {

    private static final int MOST_OWNERS = 4096;

    private final FatVolume volume;
    private final VolumeSite site;
    private final Geometry geometry;
    private final FatFiles files;
    private SectorRanges used;
    private SectorRanges free;
    private SectorRanges unknown;
    private ClaimIndex claims;

    FatAllocation(FatVolume volume, FatFiles files) {
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
        FatTable table = volume.table();
        List<SectorRange> inUse = new ArrayList<>(List.of(area(0, geometry.firstData() * geometry.sectorBytes())));
        List<SectorRange> notInUse = new ArrayList<>();
        List<SectorRange> notKnown = new ArrayList<>();
        int bad = geometry.kind().bad();
        int start = 2;
        int before = -1;
        for (int cluster = 2; cluster <= table.lastCluster() + 1; cluster++) {
            int entry = cluster > table.lastCluster() ? 0 : table.entry(cluster);
            int state = cluster > table.lastCluster() ? -1 : entry == FatTable.UNREAD ? 2 : entry == 0 ? 1 : entry == bad ? 3 : 0;
            if (state != before) {
                if (before >= 0 && before < 3) {
                    (before == 0 ? inUse : before == 1 ? notInUse : notKnown).add(clusters(start, cluster - start));
                }
                start = cluster;
                before = state;
            }
        }
        used = SectorRanges.of(inUse);
        free = SectorRanges.of(notInUse).minus(used);
        unknown = SectorRanges.of(notKnown).minus(used).minus(free);
    }

    private SectorRange clusters(int first, int count) {
        return area(geometry.clusterByte(first), (long) count * geometry.clusterBytes());
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
        all.add(area(0, geometry.firstData() * geometry.sectorBytes()));
        all.addAll(folders(Progress.NONE));
        return SectorRanges.of(all);
    }

    /** The sectors of all folders that are not deleted. */
    List<SectorRange> folders(Progress progress) {
        FolderList list = files.folders(progress);
        List<SectorRange> all = new ArrayList<>();
        for (int i = 0; i < list.size(); i++) {
            Chain chain = list.chain(i);
            for (int run = 0; run < chain.runs(); run++) {
                all.add(clusters(chain.first(run), chain.count(run)));
            }
        }
        return all;
    }

    private synchronized ClaimIndex claims(Progress progress) {
        if (claims == null) {
            ClaimIndex index = new ClaimIndex();
            CompactTree tree = files.compact(progress);
            for (int id = 0; id < tree.size(); id++) {
                if (!tree.folder(id) && tree.bytes(id) > 0) {
                    for (Extent extent : files.placement(tree, id, tree.key(id)).extents()) {
                        index.add(extent.imageByte(), extent.length(), id, extent.offset());
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
        system(range, owners);
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
                    tree.path(id) + (tree.deleted(id) ? " (deleted, assumed)" : "")));
        }
        return List.copyOf(owners);
    }

    private void system(SectorRange range, List<Owner> owners) {
        add(range, area(0, (long) geometry.firstFat() * geometry.sectorBytes()), "boot sectors", owners);
        for (int copy = 0; copy < Math.min(geometry.fats(), 4); copy++) {
            add(range, area(geometry.fatByte(copy), geometry.fatBytes()), "FAT " + (copy + 1), owners);
        }
        if (geometry.rootSectors() > 0) {
            add(range, area(geometry.rootSector() * geometry.sectorBytes(), (long) geometry.rootSectors() * geometry.sectorBytes()),
                    "root directory", owners);
        }
        for (SectorRange folder : folders(Progress.NONE)) {
            add(range, folder, "directory", owners);
        }
    }

    private static void add(SectorRange range, SectorRange area, String name, List<Owner> owners) {
        long first = Math.max(range.first(), area.first());
        long end = Math.min(range.end(), area.end());
        if (end > first && owners.size() < MOST_OWNERS) {
            owners.add(new Owner(-1, "", 0, new SectorRange(first, end - first), name));
        }
    }
}
