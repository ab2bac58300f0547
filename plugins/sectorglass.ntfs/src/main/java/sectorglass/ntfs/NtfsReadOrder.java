package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.ReadOrder;
import sectorglass.image.Progress;
import sectorglass.image.ReadState;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/**
 * The order in which the metadata of a volume should be read: boot sectors; the first records and their mirror, then the whole table, its
 * bitmap and $Bitmap; folder indexes only where records are lost; the rest. Each stage names what is known so far.
 */
final class NtfsReadOrder implements ReadOrder {
    private static final int FIRST_RECORDS = 16;

    private final TableSource source;

    NtfsReadOrder(TableSource source) {
        this.source = source;
    }

    @Override
    public List<Stage> stages(Progress progress) {
        TableSource.State state = source.searched(progress);
        return new Stages(state.table(), state.clusters()).of(progress);
    }

    /** The stages by one table. */
    private record Stages(FileTable table, ClusterMap map, Geometry geometry) {

        Stages(FileTable table, ClusterMap map) {
            this(table, map, table.geometry());
        }

        List<Stage> of(Progress progress) {
            List<Stage> stages = new ArrayList<>();
            int sector = Math.max(1, geometry.sectorBytes() / table.image().sectorSize());
            stages.add(new Stage(Kind.HEADS, SectorRanges.of(List.of(at(geometry.firstByte(), sector), at(geometry.backupByte(), sector))),
                    "The boot sector and its copy give the measures of the volume; either is enough.", true));
            stages.add(new Stage(Kind.FILE_TABLE, first(), "The first records of $MFT and their mirror tell where the table and the cluster map lie.",
                    table.origin() == FileTable.Origin.RECORD_0 || table.origin() == FileTable.Origin.MIRROR));
            boolean whole = table.origin() == FileTable.Origin.RECORD_0 || table.origin() == FileTable.Origin.MIRROR;
            stages.add(new Stage(Kind.FILE_TABLE, tableAndMaps(), "The file table with its bitmap, and $Bitmap: every name, size and place, and which "
                    + "clusters can hold data. Usually less than a hundredth of the disk.", whole && map.stream() != null));
            stages.add(new Stage(Kind.FOLDERS, folders(progress), "Folder indexes: they matter where a file record is lost or a folder has no name.",
                    SectorRanges.of(table.image().all()).minus(table.image().inState(ReadState.READ, table.image().all()))
                            .intersect(runs(table.runs())).isEmpty()));
            stages.add(new Stage(Kind.OTHER, other(), "Journal, security descriptors, capital letters, attribute definitions: useful, not essential.",
                    whole));
            return stages;
        }

        private SectorRange at(long imageByte, int sectors) {
            return new SectorRange(imageByte / table.image().sectorSize(), sectors);
        }

        private SectorRanges first() {
            List<SectorRange> all = new ArrayList<>();
            int size = table.image().sectorSize();
            long bytes = Math.max(geometry.clusterBytes(), (long) FIRST_RECORDS * geometry.recordBytes());
            if (BootSector.lcnLegal(geometry.mftLcn(), geometry)) {
                all.add(at(geometry.clusterByte(geometry.mftLcn()), (int) ((bytes + size - 1) / size)));
            }
            if (BootSector.lcnLegal(geometry.mirrorLcn(), geometry)) {
                long mirror = (long) geometry.mirrorRecords() * geometry.recordBytes();
                all.add(at(geometry.clusterByte(geometry.mirrorLcn()), (int) ((mirror + size - 1) / size)));
            }
            return SectorRanges.of(all);
        }

        private SectorRanges tableAndMaps() {
            SectorRanges all = runs(table.runs());
            FileRecord mft = FileRecord.of(table, 0);
            if (mft != null) {
                for (FileStream stream : mft.all()) {
                    all = all.union(runs(stream.runs));
                }
            }
            return map.stream() == null ? all : all.union(runs(map.stream().runs));
        }

        private SectorRanges other() {
            SectorRanges all = SectorRanges.EMPTY;
            for (long record : new long[] {2, 4, 9, 10}) {
                FileRecord file = FileRecord.of(table, record);
                if (file != null) {
                    for (FileStream stream : file.all()) {
                        all = all.union(runs(stream.runs));
                    }
                }
            }
            return all;
        }

        private SectorRanges folders(Progress progress) {
            List<SectorRange> all = new ArrayList<>();
            RunList runs = new RunList();
            table.scan(0, table.records(), (view, address) -> {
                if (!view.usable() || !view.inUse()) {
                    return;
                }
                view.rewind();
                while (view.nextAttribute()) {
                    if (view.type() == AttributeType.INDEX_ALLOCATION && !view.resident() && view.has(view.attribute, 0x40)) {
                        runs.clear();
                        runs.add(view, view.runsOffset(), view.next, Math.max(0, view.lowestVcn()));
                        add(runs, all);
                    }
                }
            }, progress);
            return SectorRanges.of(all);
        }

        private SectorRanges runs(RunList runs) {
            List<SectorRange> all = new ArrayList<>();
            add(runs, all);
            return SectorRanges.of(all);
        }

        private void add(RunList runs, List<SectorRange> all) {
            for (int i = 0; i < runs.runs(); i++) {
                if (runs.lcn(i) != RunList.HOLE && geometry.holds(runs.lcn(i), runs.count(i))) {
                    all.add(map.sectors(runs.lcn(i), runs.count(i)));
                }
            }
        }
    }
}
