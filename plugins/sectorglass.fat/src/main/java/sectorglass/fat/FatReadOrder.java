package sectorglass.fat;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.ReadOrder;
import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/** The order in which the metadata of a FAT volume should be read: boot sectors, the FAT and its copy, the folders known so far. */
final class FatReadOrder implements ReadOrder {

    private final FatVolume volume;
    private final FatFiles files;
    private final FatAllocation allocation;

    FatReadOrder(FatVolume volume, FatFiles files, FatAllocation allocation) {
        this.volume = volume;
        this.files = files;
        this.allocation = allocation;
    }

    @Override
    public List<Stage> stages(Progress progress) {
        Geometry geometry = volume.found().geometry();
        List<SectorRange> fats = new ArrayList<>();
        for (int copy = 0; copy < Math.min(geometry.fats(), 2); copy++) {
            fats.add(area(geometry.fatByte(copy), geometry.kind().tableBytes(geometry.entriesPresent())));
        }
        List<SectorRange> folders = new ArrayList<>(allocation.folders(progress));
        if (geometry.rootSectors() > 0) {
            folders.add(area(geometry.rootSector() * geometry.sectorBytes(), (long) geometry.rootSectors() * geometry.sectorBytes()));
        }
        return List.of(
                new Stage(Kind.HEADS, SectorRanges.of(area(0, (long) geometry.firstFat() * geometry.sectorBytes())),
                        "The boot sector, on FAT32 its backup and the information sector: where everything else lies.", true),
                new Stage(Kind.FILE_TABLE, SectorRanges.of(fats),
                        "The FATs hold the chains of all files and say which clusters are free; one of the two is enough.",
                        volume.found().source() != Found.Source.GUESS),
                new Stage(Kind.FOLDERS, SectorRanges.of(folders),
                        "The folders hold names, sizes, times and first clusters. Reading them may show further folders.",
                        files.tree(progress).unreadMetadata().isEmpty()));
    }

    private SectorRange area(long volumeByte, long length) {
        VolumeSite site = volume.site();
        return new ByteRange(site.firstByte() + volumeByte, length).sectors(site.image().sectorSize());
    }
}
