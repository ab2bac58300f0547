package sectorglass.make.write;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

import sectorglass.make.MadeVolume;
import sectorglass.make.Medium;
import sectorglass.make.VolumeDescription;
import sectorglass.make.exfat.ExfatWriter;
import sectorglass.make.ext.ExtWriter;
import sectorglass.make.fat.FatWriter;
import sectorglass.make.ntfs.NtfsWriter;

/** What a writer of a volume is given, and where it notes what came to lie where. */
public final class VolumeTarget {
    private final Medium medium;
    private final VolumeDescription volume;
    private final long firstLba;
    private final long sectors;
    private final int sectorSize;
    private final long seed;
    private final boolean notesFiles;
    private final Map<String, Long> places = new LinkedHashMap<>();
    private final Map<String, MadeVolume.Place> files = new LinkedHashMap<>();

    /** A partition, or a disk without a map. */
    public VolumeTarget(Medium medium, VolumeDescription volume, long firstLba, long sectors, int sectorSize, long seed,
            boolean notesFiles) {
        this.medium = medium;
        this.volume = volume;
        this.firstLba = firstLba;
        this.sectors = sectors;
        this.sectorSize = sectorSize;
        this.seed = seed;
        this.notesFiles = notesFiles;
    }

    /** Makes the volume. */
    public MadeVolume make() throws IOException {
        switch (volume.kind()) {
            case FAT12, FAT16, FAT32 -> new FatWriter(this).write();
            case EXFAT -> new ExfatWriter(this).write();
            case NTFS -> new NtfsWriter(this).write();
            case EXT4 -> new ExtWriter(this).write();
        }
        return new MadeVolume(volume.kind(), firstByte(), sectors * sectorSize, volume.clusterBytes(), Map.copyOf(places),
                Map.copyOf(files));
    }

    /** The bytes of the partition. */
    public Medium medium() {
        return medium;
    }

    /** What to make. */
    public VolumeDescription volume() {
        return volume;
    }

    /** First sector of the partition on the disk. */
    public long firstLba() {
        return firstLba;
    }

    /** Sectors of the partition. */
    public long sectors() {
        return sectors;
    }

    /** Bytes per sector. */
    public int sectorSize() {
        return sectorSize;
    }

    /** Seed of this volume. */
    public long seed() {
        return seed;
    }

    /** Sectors per cluster. */
    public int sectorsPerCluster() {
        return volume.clusterBytes() / sectorSize;
    }

    /** Notes where a structure lies, counted from the start of the volume. */
    public void note(String name, long byteInVolume) {
        places.put(name, firstByte() + byteInVolume);
    }

    /** Notes where a file lies, counted from the start of the volume; does nothing where nobody asks. */
    public void note(String path, long entryInVolume, long record, List<ClusterRun> runs, long heapByte, long firstCluster) {
        if (!notesFiles) {
            return;
        }
        List<MadeVolume.Run> placed = new ArrayList<>();
        for (ClusterRun run : runs) {
            placed.add(new MadeVolume.Run(firstByte() + heapByte + (run.first() - firstCluster) * volume.clusterBytes(),
                    run.count() * volume.clusterBytes()));
        }
        files.put(path, new MadeVolume.Place(firstByte() + entryInVolume, record, List.copyOf(placed)));
    }

    private long firstByte() {
        return firstLba * sectorSize;
    }
}
