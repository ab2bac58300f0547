package sectorglass.exfat;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.ReadOrder;
import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/** The order in which the metadata of an exFAT volume should be read: boot regions, FAT and bitmap, the folders known so far. */
final class ExfatReadOrder implements ReadOrder {

    private final ExfatVolume volume;
    private final ExfatFiles files;
    private final ExfatAllocation allocation;

    ExfatReadOrder(ExfatVolume volume, ExfatFiles files, ExfatAllocation allocation) {
        this.volume = volume;
        this.files = files;
        this.allocation = allocation;
    }

    @Override
    public List<Stage> stages(Progress progress) {
        Geometry geometry = volume.found().geometry();
        List<SectorRange> tables = new ArrayList<>(allocation.tables());
        tables.add(area(geometry.fatByte(), geometry.entriesPresent() * 4));
        List<SectorRange> folders = new ArrayList<>(allocation.folders(progress));
        if (geometry.exists(geometry.rootCluster())) {
            folders.add(area(geometry.clusterByte(geometry.rootCluster()), geometry.clusterBytes()));
        }
        return List.of(
                new Stage(Kind.HEADS, SectorRanges.of(area(0, 2L * BootRegion.SECTORS * geometry.sectorBytes())),
                        "The boot region and its backup: where everything else lies; either is enough.", true),
                new Stage(Kind.FILE_TABLE, SectorRanges.of(tables),
                        "The FAT holds the chains of files that are not contiguous, the bitmap says which clusters are in use.",
                        volume.bitmap() != null),
                new Stage(Kind.FOLDERS, SectorRanges.of(folders),
                        "The folders hold names, lengths, times and places. Reading them may show further folders.",
                        files.tree(progress).unreadMetadata().isEmpty()));
    }

    private SectorRange area(long volumeByte, long length) {
        VolumeSite site = volume.site();
        return new ByteRange(site.firstByte() + volumeByte, length).sectors(site.image().sectorSize());
    }
}
