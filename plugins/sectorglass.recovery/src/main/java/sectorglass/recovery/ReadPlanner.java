package sectorglass.recovery;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import sectorglass.disk.Allocation;
import sectorglass.disk.Disk;
import sectorglass.disk.Files;
import sectorglass.disk.Partition;
import sectorglass.disk.PartitionMap;
import sectorglass.disk.ReadOrder;
import sectorglass.disk.SetMember;
import sectorglass.disk.Volume;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/** Makes a read plan from what is known of a disk. Ask again when more was read: the plan shrinks and sees further. */
public final class ReadPlanner {
    /** Sectors at both ends of a disk where maps and their copies lie: a GPT takes 34 and 33 (UEFI 2.10, section 5.3.1). */
    private static final int ENDS = 34;

    private final Disk disk;
    private final SectorImage image;
    private final PlanOptions options;
    private final Progress progress;
    private final SectorRanges read;
    private final SectorRanges failed;
    private final List<ReadPlan.Stage> stages = new ArrayList<>();
    private final List<String> remarks = new ArrayList<>();
    private SectorRanges planned = SectorRanges.EMPTY;

    private ReadPlanner(Disk disk, PlanOptions options, Progress progress) {
        this.disk = disk;
        this.image = disk.image();
        this.options = options;
        this.progress = progress;
        this.read = image.inState(ReadState.READ, image.all());
        this.failed = image.inState(ReadState.FAILED, image.all());
    }

    /** Makes the plan. */
    public static ReadPlan plan(Disk disk, PlanOptions options, Progress progress) {
        return new ReadPlanner(disk, options, progress).plan();
    }

    private record Numbered(int number, SectorRange range, Volume volume) { }

    private List<Numbered> volumes() {
        List<Numbered> all = new ArrayList<>();
        if (disk.volume() != null) {
            all.add(new Numbered(1, image.all(), disk.volume()));
        }
        for (Partition partition : disk.partitions()) {
            if (partition.placed() || partition.volume() != null) {
                all.add(new Numbered(partition.number(), partition.range(), partition.volume()));
            }
        }
        return all;
    }

    private ReadPlan plan() {
        List<Numbered> volumes = volumes();
        Map<ReadOrder.Kind, List<NumberedStage>> metadata = metadata(volumes);
        heads(metadata.getOrDefault(ReadOrder.Kind.HEADS, List.of()));
        each(ReadPlan.Kind.FILE_TABLE, metadata.getOrDefault(ReadOrder.Kind.FILE_TABLE, List.of()));
        each(ReadPlan.Kind.FOLDERS, metadata.getOrDefault(ReadOrder.Kind.FOLDERS, List.of()));
        each(ReadPlan.Kind.OTHER_METADATA, metadata.getOrDefault(ReadOrder.Kind.OTHER, List.of()));
        List<Numbered> unknown = new ArrayList<>();
        Map<Integer, FileSectors> files = new java.util.TreeMap<>();
        for (Numbered volume : volumes) {
            Optional<Files> has = volume.volume() == null ? Optional.empty() : volume.volume().capability(Files.class);
            has.ifPresent(f -> files.put(volume.number(), FileSectors.of(f, options, image.sectorSize(), progress)));
            if (volume.volume() == null || volume.volume().capability(Allocation.class).isEmpty()) {
                unknown.add(volume);
            }
        }
        files.forEach((number, sectors) -> add(ReadPlan.Kind.CHOSEN, number, sectors.chosen(),
                sectors.chosenCount() + " chosen files and folders, before anything else that is allocated", sectors.whole()));
        if (options.allocated()) {
            allocated(volumes, files);
            for (Numbered volume : unknown) {
                if (volume.volume() != null && volume.volume().capability(SetMember.class).isPresent()) {
                    add(ReadPlan.Kind.NOT_KNOWN, null, onImage(volume.number(), SectorRanges.of(volume.range())).minus(inSets()),
                            "in a member of a set, but in none of the volumes that could be put together", true);
                    continue;
                }
                add(ReadPlan.Kind.NOT_KNOWN, volume.number(), SectorRanges.of(volume.range()),
                        volume.volume() == null ? "no volume was recognised here, so nothing tells which sectors are in use"
                                : "the allocation of a " + volume.volume().info().kind() + " volume is not known here, so all of it is taken", true);
            }
        }
        if (options.unallocated()) {
            add(ReadPlan.Kind.UNALLOCATED, null, SectorRanges.of(image.all()), "everything that no stage before has named", true);
        }
        SectorRanges again = failed.intersect(options.failedAgain());
        SectorRanges once = failed.minus(again);
        if (options.secondPass() && !once.isEmpty()) {
            stages.add(new ReadPlan.Stage(ReadPlan.Kind.SECOND_PASS, null, once, "failed in an earlier pass; tried again last, with more patience", true));
        }
        if (options.secondPass() && !again.isEmpty()) {
            stages.add(new ReadPlan.Stage(ReadPlan.Kind.THIRD_PASS, null, again,
                    "failed in two passes or more; tried once more at the very end, in the smallest steps and with the longest time-outs", true));
        }
        files.forEach((number, sectors) -> remarks.addAll(sectors.remarks().stream().map(r -> "Volume " + number + ": " + r).toList()));
        return new ReadPlan(new PlanShape(options, image.all(), failed, image.sectorSize()).shape(stages), image.sectors() - read.count(), List.copyOf(remarks));
    }

    private record NumberedStage(int number, ReadOrder.Stage stage) { }

    private Map<ReadOrder.Kind, List<NumberedStage>> metadata(List<Numbered> volumes) {
        Map<ReadOrder.Kind, List<NumberedStage>> all = new EnumMap<>(ReadOrder.Kind.class);
        for (Numbered volume : volumes) {
            progress.checkCancelled();
            Optional<ReadOrder> order = volume.volume() == null ? Optional.empty() : volume.volume().capability(ReadOrder.class);
            order.ifPresent(o -> o.stages(progress).forEach(stage -> all.computeIfAbsent(stage.kind(), k -> new ArrayList<>())
                    .add(new NumberedStage(volume.number(), stage))));
        }
        return all;
    }

    private void heads(List<NumberedStage> volumes) {
        List<SectorRange> ranges = new ArrayList<>();
        long ends = Math.min(ENDS, image.sectors());
        ranges.add(new SectorRange(0, ends));
        ranges.add(new SectorRange(image.sectors() - ends, ends));
        for (Disk.FoundMap found : disk.maps()) {
            PartitionMap map = found.map();
            for (ByteRange where : map.where()) {
                ranges.add(where.sectors(image.sectorSize()));
            }
        }
        SectorRanges all = SectorRanges.of(ranges);
        boolean complete = true;
        for (NumberedStage stage : volumes) {
            all = all.union(onImage(stage.number(), stage.stage().sectors()));
            complete &= stage.stage().complete();
        }
        for (Partition partition : disk.partitions()) {
            if (!partition.placed()) {
                continue; // its members' heads are there
            }
            long head = Math.min(partition.range().count(), 16);
            all = all.union(SectorRanges.of(partition.range().first(), head));
        }
        add(ReadPlan.Kind.HEADS, null, all, "both ends of the disk, all maps, the first sectors of each partition, boot sectors and their copies", complete);
    }

    private void each(ReadPlan.Kind kind, List<NumberedStage> found) {
        for (NumberedStage stage : found) {
            add(kind, stage.number(), stage.stage().sectors(), stage.stage().reason(), stage.stage().complete());
        }
    }

    private void allocated(List<Numbered> volumes, Map<Integer, FileSectors> files) {
        List<ReadPlan.Stage> last = new ArrayList<>();
        for (Numbered volume : volumes) {
            Optional<Allocation> allocation = volume.volume() == null ? Optional.empty() : volume.volume().capability(Allocation.class);
            if (allocation.isEmpty()) {
                continue;
            }
            FileSectors sectors = files.getOrDefault(volume.number(), FileSectors.NONE);
            SectorRanges inUse = allocation.get().used().union(allocation.get().unknown());
            SectorRanges freeButOwned = sectors.live().minus(inUse);
            if (!freeButOwned.isEmpty()) {
                remarks.add("Volume " + volume.number() + ": " + freeButOwned.count()
                        + " sectors belong to files although the allocation map calls them free; they are in the plan.");
            }
            SectorRanges wanted = inUse.union(freeButOwned);
            long unknown = allocation.get().unknown().count();
            add(ReadPlan.Kind.ALLOCATED, volume.number(), wanted.minus(sectors.later()), "in use by the volume's own map"
                    + (unknown == 0 ? "" : "; " + unknown + " sectors whose part of the map was not read count as in use"), unknown == 0);
            if (!sectors.later().isEmpty()) {
                last.add(new ReadPlan.Stage(ReadPlan.Kind.LATER, volume.number(), sectors.later(), "files that hold nothing of a person's own, by the list of patterns", true));
            }
        }
        last.forEach(stage -> add(stage.kind(), stage.volume(), stage.ranges(), stage.reason(), stage.complete()));
    }

    /** Sectors of the image that volumes of sets hold. */
    private SectorRanges inSets() {
        SectorRanges all = SectorRanges.EMPTY;
        for (Partition partition : disk.partitions()) {
            if (partition.map() < 0 && partition.volume() != null) {
                all = all.union(disk.onImage(partition.volume(), SectorRanges.of(partition.range())));
            }
        }
        return all;
    }

    private SectorRanges onImage(int volume, SectorRanges sectors) {
        return disk.volume(volume).map(v -> disk.onImage(v, sectors)).orElse(sectors);
    }

    private void add(ReadPlan.Kind kind, Integer volume, SectorRanges there, String reason, boolean complete) {
        SectorRanges wanted = volume == null ? there : onImage(volume, there);
        SectorRanges skip = options.secondPass() ? read.union(failed) : read;
        SectorRanges left = wanted.intersect(image.all()).minus(skip).minus(planned);
        if (!left.isEmpty()) {
            planned = planned.union(left);
            stages.add(new ReadPlan.Stage(kind, volume, left, reason, complete));
        } else if (!complete) {
            remarks.add((volume == null ? "" : "Volume " + volume + ": ") + kind.words()
                    + ": what was read so far does not name all of its sectors; read the failed places of the stages before it.");
        }
    }
}
