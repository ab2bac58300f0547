package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.LinkedHashMap;

import sectorglass.disk.Allocation;
import sectorglass.disk.Files;
import sectorglass.disk.FileTree;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/** Which clusters are in use, by $Bitmap; and whose they are, by the runs of all file records. */
final class NtfsAllocation implements Allocation {
    private static final int MOST_OWNERS = 4096;

    private final TableSource source;
    private final Files files;
    private ClusterMap.States states;
    private ClusterMap statesOf;
    private Claims claims;
    private long longest;

    NtfsAllocation(TableSource source, Files files) {
        this.source = source;
        this.files = files;
    }

    @Override
    public int clusterBytes() {
        return source.table().geometry().clusterBytes();
    }

    private synchronized ClusterMap.States states() {
        ClusterMap map = source.now().clusters();
        if (statesOf != map) {
            states = map.states();
            statesOf = map;
        }
        return states;
    }

    @Override
    public SectorRanges used() {
        return states().used();
    }

    @Override
    public SectorRanges free() {
        return states().free();
    }

    @Override
    public SectorRanges unknown() {
        return states().unknown();
    }

    @Override
    public SectorRanges metadata() {
        FileTable table = source.table();
        Geometry geometry = table.geometry();
        int size = table.image().sectorSize();
        List<SectorRange> all = new ArrayList<>();
        all.add(new SectorRange(geometry.firstByte() / size, Math.max(1, geometry.sectorBytes() / size)));
        all.add(new SectorRange(geometry.backupByte() / size, Math.max(1, geometry.sectorBytes() / size)));
        add(table.runs(), all);
        for (long record = 1; record < 12; record++) {
            FileRecord file = record == 8 ? null : FileRecord.of(table, record); // 8: $BadClus, no metadata
            if (file != null) {
                file.all().forEach(stream -> add(stream.runs, all));
            }
        }
        return SectorRanges.of(all);
    }

    private void add(RunList runs, List<SectorRange> all) {
        TableSource.State state = source.now();
        for (int i = 0; i < runs.runs(); i++) {
            if (runs.lcn(i) != RunList.HOLE && state.table().geometry().holds(runs.lcn(i), runs.count(i))) {
                all.add(state.clusters().sectors(runs.lcn(i), runs.count(i)));
            }
        }
    }

    private synchronized Claims claims(Progress progress) {
        if (claims == null) {
            FileTable table = source.searched(progress).table();
            Claims made = new Claims();
            ClaimScan scan = new ClaimScan(table.geometry(), made);
            table.scan(0, table.records(), (view, address) -> scan.record(view), progress);
            made.sort();
            for (int i = 0; i < made.rows(); i++) {
                longest = Math.max(longest, made.count(i));
            }
            claims = made;
        }
        return claims;
    }

    @Override
    public List<Owner> owners(SectorRange range, Progress progress) {
        Geometry geometry = source.table().geometry();
        int size = source.table().image().sectorSize();
        long inVolume = range.first() * size - geometry.firstByte();
        if (inVolume < 0) {
            return List.of();
        }
        Claims all = claims(progress);
        FileTree tree = files.tree(progress);
        long from = inVolume / geometry.clusterBytes();
        long to = (range.end() * size - geometry.firstByte() + geometry.clusterBytes() - 1) / geometry.clusterBytes();
        Map<String, Owner> owners = new LinkedHashMap<>();
        for (int place = all.firstFrom(Math.max(0, from - longest)); place < all.rows(); place++) {
            int row = all.row(place);
            if (all.lcn(row) >= to || owners.size() >= MOST_OWNERS) {
                break;
            }
            if (all.lcn(row) + all.count(row) > from) {
                owner(all, row, range, tree, owners);
            }
        }
        return List.copyOf(owners.values());
    }

    private void owner(Claims all, int row, SectorRange range, FileTree tree, Map<String, Owner> owners) {
        RecordView view = new RecordView();
        FileTable table = source.table();
        if (!table.load(all.record(row), view) || !view.usable()) {
            return;
        }
        long number = view.isBase() ? view.number : view.baseNumber();
        view.rewind();
        while (view.nextAttribute() && view.attribute != all.attribute(row)) {
            // on to the attribute that holds the run
        }
        if (view.attribute < 0) {
            return;
        }
        RunList runs = new RunList();
        runs.add(view, view.runsOffset(), view.next, Math.max(0, view.lowestVcn()));
        SectorRange sectors = source.now().clusters().sectors(all.lcn(row), all.count(row));
        long first = Math.max(range.first(), sectors.first());
        long end = Math.min(range.end(), sectors.end());
        int size = table.image().sectorSize();
        for (int i = 0; i < runs.runs(); i++) {
            long lcn = all.lcn(row);
            if (end > first && runs.lcn(i) != RunList.HOLE && lcn >= runs.lcn(i) && lcn - runs.lcn(i) < runs.count(i)) {
                long start = table.geometry().clusterByte(runs.lcn(i));
                long offset = runs.vcn(i) * table.geometry().clusterBytes() + Math.max(0, first * size - start);
                String stream = view.type() == AttributeType.DATA ? view.attributeName()
                        : AttributeType.name(view.type()) + (view.nameLength() > 0 ? " " + view.attributeName() : "");
                List<Integer> ids = tree.withNumber(number);
                int entry = ids.isEmpty() ? -1 : ids.get(0);
                String owner = (entry < 0 ? "file record " + number : tree.path(entry).isEmpty() ? "root folder" : tree.path(entry))
                        + (all.deleted(row) ? " (deleted)" : "");
                owners.putIfAbsent(row + "/" + i, new Owner(entry, stream, offset, new SectorRange(first, end - first), owner));
                return;
            }
        }
    }
}
