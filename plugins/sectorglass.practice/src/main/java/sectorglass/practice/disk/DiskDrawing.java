package sectorglass.practice.disk;

import java.util.ArrayList;
import java.util.List;
import java.util.UUID;

import sectorglass.make.DiskDescription;
import sectorglass.make.PartitionDescription;
import sectorglass.make.SplitMix64;
import sectorglass.make.VolumeDescription;
import sectorglass.make.VolumeKind;

/** Draws the map and the volumes of a practice disk of sectors of 512 bytes: one to four partitions under an MBR or a GPT. */
final class DiskDrawing {
    private static final int SECTOR = 512;
    private static final long MIB = (1 << 20) / SECTOR;
    /** The type that Linux volumes bear in a GPT (Linux kernel and util-linux, gpt.h: "Linux filesystem"). */
    private static final UUID LINUX = UUID.fromString("0fc63daf-8483-4772-8e79-3d69d8477de4");
    private static final String[] LABELS = {"MEADOW", "CLIFFSIDE", "ORCHARD", "MILLPOND", "SANDBANK", "HEATHER", "QUAYSIDE"};
    private static final VolumeKind[][] BY_LEVEL = {
        {VolumeKind.NTFS, VolumeKind.FAT16, VolumeKind.EXFAT},
        {VolumeKind.NTFS, VolumeKind.FAT16, VolumeKind.FAT32, VolumeKind.EXFAT},
        {VolumeKind.NTFS, VolumeKind.FAT12, VolumeKind.FAT16, VolumeKind.FAT32, VolumeKind.EXFAT, VolumeKind.EXT4}};

    private final SplitMix64 numbers;
    private final int level;

    DiskDrawing(SplitMix64 numbers, int level) {
        this.numbers = numbers;
        this.level = level;
    }

    /** A disk to be made; its own seed decides what stands in the files. */
    DiskDescription draw() {
        List<VolumeKind> kinds = kinds();
        boolean gpt = numbers.below(2) == 0;
        boolean chain = !gpt && kinds.size() > 2;
        List<PartitionDescription> partitions = new ArrayList<>();
        int active = gpt ? -1 : numbers.below(chain ? 1 : kinds.size());
        long at = MIB;
        long container = -1;
        int label = numbers.below(LABELS.length);
        for (int i = 0; i < kinds.size(); i++) {
            boolean logical = chain && i > 0;
            if (logical) {
                container = container < 0 ? at : container;
                at += MIB;
            }
            VolumeKind kind = kinds.get(i);
            long sectors = mib(kind) * MIB;
            VolumeDescription volume = new VolumeDescription(kind, LABELS[(label + i) % LABELS.length], serial(kind), clusterBytes(kind),
                    new PracticeContent(numbers).root());
            PartitionDescription partition = gpt ? PartitionDescription.gpt(at, sectors, kind == VolumeKind.EXT4 ? LINUX : PartitionDescription.BASIC_DATA,
                    null, name(volume.label()), 0) : logical ? PartitionDescription.logical(at, sectors, type(kind))
                            : PartitionDescription.primary(at, sectors, type(kind));
            partitions.add((i == active ? partition.asActive() : partition).with(volume));
            at += sectors + numbers.below(3) * MIB;
        }
        if (container >= 0) {
            partitions.add(1, PartitionDescription.container(container, at - container, 0x0F));
        }
        long sectors = at + (2 + numbers.below(6)) * MIB;
        long seed = numbers.next();
        PartitionDescription[] all = partitions.toArray(new PartitionDescription[0]);
        return gpt ? DiskDescription.gpt(sectors, SECTOR, seed, null, all)
                : DiskDescription.mbr(sectors, SECTOR, seed, 0x10000000 | numbers.below(0x7FFFFFFF), all);
    }

    private List<VolumeKind> kinds() {
        List<VolumeKind> from = new ArrayList<>(List.of(BY_LEVEL[Math.min(level, BY_LEVEL.length) - 1]));
        int count = 1 + numbers.below(level == 1 ? 2 : level == 2 ? 3 : 4);
        List<VolumeKind> kinds = new ArrayList<>();
        while (kinds.size() < count && !from.isEmpty()) {
            kinds.add(from.remove(numbers.below(from.size())));
        }
        return kinds;
    }

    private static String name(String label) {
        return label.charAt(0) + label.substring(1).toLowerCase(java.util.Locale.ROOT);
    }

    private long serial(VolumeKind kind) {
        return kind == VolumeKind.NTFS ? numbers.next() : numbers.next() >>> 32;
    }

    private int mib(VolumeKind kind) {
        return switch (kind) {
            case FAT12 -> 4 + numbers.below(3);
            case FAT16 -> 12 + numbers.below(8);
            case FAT32 -> 40 + numbers.below(8);
            case EXFAT -> 12 + numbers.below(8);
            case NTFS -> 16 + numbers.below(12);
            case EXT4 -> 18 + numbers.below(5);
        };
    }

    private static int clusterBytes(VolumeKind kind) {
        return switch (kind) {
            case FAT12, FAT16 -> 2048;
            case FAT32 -> 512;
            case EXT4 -> 1024;
            default -> 4096;
        };
    }

    private static int type(VolumeKind kind) {
        return switch (kind) {
            case FAT12 -> 0x01;
            case FAT16 -> 0x06;
            case FAT32 -> 0x0C;
            case EXT4 -> 0x83;
            default -> 0x07;
        };
    }
}
