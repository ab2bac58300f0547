package sectorglass.workbench.model;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

import sectorglass.disk.Disk;
import sectorglass.disk.Partition;
import sectorglass.disk.ReadCount;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;

/**
 * An opened image with what the survey and the checks say of it.
 *
 * @param path where the image lies, or null for one that has no file
 * @param disk the survey's result
 * @param findings the verdicts, or null while the checks run
 * @param listed the listed findings by address
 * @param remarks what was noticed on opening, sentences
 * @param counts how much of each listed partition was read, in their order; null for one that is not there
 */
public record OpenDisk(Path path, Disk disk, Findings findings, List<Finding> listed, List<String> remarks, List<ReadCount> counts) {

    /** A disk that is not judged yet; counts what was read of it, so it is not for the window's thread. */
    public static OpenDisk surveyed(Path path, Disk disk, List<String> remarks) {
        List<ReadCount> counts = new ArrayList<>();
        disk.partitions().forEach(partition -> counts.add(ReadCount.of(disk.image(), partition)));
        return new OpenDisk(path, disk, null, List.of(), List.copyOf(remarks), Collections.unmodifiableList(counts));
    }

    /** The same disk with verdicts. */
    public OpenDisk judged(Findings verdicts) {
        return new OpenDisk(path, disk, verdicts, verdicts.listed().stream().sorted(Comparator.comparing(Finding::where)).toList(), remarks, counts);
    }

    /** The same disk with a remark more. */
    OpenDisk remarked(String remark) {
        List<String> more = new ArrayList<>(remarks);
        more.add(remark);
        return new OpenDisk(path, disk, findings, listed, List.copyOf(more), counts);
    }

    /** The sectors. */
    public SectorImage image() {
        return disk.image();
    }

    /** Closes the image and the further disks of its set. */
    public void close() {
        image().close();
        disk.others().forEach(SectorImage::close);
    }

    /** Listed findings whose bytes overlap the range, by address. */
    public List<Finding> findings(ByteRange range) {
        return listed.stream().filter(f -> f.where().overlaps(range)).toList();
    }

    /** The listed partition that holds an LBA: of nested ones the smallest. A volume that a set puts together has addresses of its own. */
    public Optional<Partition> partitionAt(long lba) {
        return disk.partitions().stream().filter(p -> p.placed() && p.range().contains(lba))
                .min(Comparator.comparingLong(p -> p.range().count()));
    }
}
