package sectorglass.make;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

import sectorglass.make.map.GptWriter;
import sectorglass.make.map.MbrWriter;
import sectorglass.make.write.VolumeTarget;

/**
 * Makes disks from descriptions: maps and volumes without boot code. The same description gives the same bytes on every machine.
 * Memory does not grow with the size of the disk, and with the number of files only where their places are asked for.
 */
public final class DiskMaker {
    private final boolean places;

    private DiskMaker(boolean places) {
        this.places = places;
    }

    /** A maker that tells where every file came to lie. */
    public static DiskMaker withPlaces() {
        return new DiskMaker(true);
    }

    /** A maker for any number of files. */
    public static DiskMaker withoutPlaces() {
        return new DiskMaker(false);
    }

    /**
     * Makes a disk as a sparse file; an older file of that name is replaced.
     *
     * @throws IllegalArgumentException if a volume does not fit its partition, or a name cannot be stored
     * @throws IOException if the file cannot be written
     */
    public MadeDisk make(DiskDescription disk, Path file) throws IOException {
        try (SparseFile medium = SparseFile.create(file, disk.bytes())) {
            return make(disk, medium);
        }
    }

    /** Makes a disk on an empty medium of its size. */
    public MadeDisk make(DiskDescription disk, Medium medium) throws IOException {
        if (medium.bytes() < disk.bytes()) {
            throw new IllegalArgumentException("medium has " + medium.bytes() + " bytes, disk " + disk.bytes());
        }
        if (disk.map() == MapKind.NONE) {
            return new MadeDisk(disk, Collections.singletonList(volume(disk, medium, disk.volume(), 0, disk.sectors(), 1)));
        }
        new MbrWriter(medium, disk).write();
        if (MbrWriter.hasGpt(disk.map())) {
            new GptWriter(medium, disk).write();
        }
        List<MadeVolume> volumes = new ArrayList<>();
        for (PartitionDescription partition : disk.partitions()) {
            volumes.add(volume(disk, medium, partition.volume(), partition.firstLba(), partition.sectors(), volumes.size() + 1));
        }
        return new MadeDisk(disk, Collections.unmodifiableList(volumes));
    }

    private MadeVolume volume(DiskDescription disk, Medium medium, VolumeDescription volume, long firstLba, long sectors,
            int number) throws IOException {
        if (volume == null) {
            return null;
        }
        if (volume.clusterBytes() < disk.sectorSize()) {
            throw new IllegalArgumentException("clusterBytes=" + volume.clusterBytes() + " sectorSize=" + disk.sectorSize());
        }
        long firstByte = firstLba * disk.sectorSize();
        VolumeTarget target = new VolumeTarget(medium.part(firstByte, sectors * disk.sectorSize()), volume, firstLba, sectors,
                disk.sectorSize(), SplitMix64.derive(disk.seed(), "volume " + number), places);
        return target.make();
    }
}
