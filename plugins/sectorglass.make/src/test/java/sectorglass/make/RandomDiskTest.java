package sectorglass.make;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.LongRange;

import static org.junit.jupiter.api.Assertions.assertEquals;

/** Disks whose description is drawn at random: sound to the checkers, and twice the same. */
class RandomDiskTest {
    private static final int MIB = 2048;

    @Property(tries = 8)
    void anyDiskIsSoundAndTwiceTheSame(@ForAll @LongRange(min = 0, max = 1_000_000) long seed) throws IOException {
        SplitMix64 numbers = new SplitMix64(seed);
        DiskDescription disk = disk(numbers, seed);
        Path folder = Files.createTempDirectory("random");
        Path image = folder.resolve("a.img");
        Path again = folder.resolve("b.img");
        Path cut = folder.resolve("cut.img");
        try {
            MadeDisk made = DiskMaker.withPlaces().make(disk, image);
            DiskMaker.withoutPlaces().make(disk, again);
            assertEquals(-1, Files.mismatch(image, again), "seed " + seed);
            for (MadeVolume volume : made.volumes()) {
                if (volume != null) {
                    Soundness.assertSound(volume.kind(), Soundness.cut(image, volume, cut));
                }
            }
        } finally {
            for (Path file : List.of(image, again, cut, folder)) {
                Files.deleteIfExists(file);
            }
        }
    }

    private static DiskDescription disk(SplitMix64 numbers, long seed) {
        boolean gpt = numbers.below(2) == 0;
        List<PartitionDescription> partitions = new ArrayList<>();
        long next = MIB;
        VolumeKind[] kinds = VolumeKind.values();
        for (int i = 1 + numbers.below(2); i >= 0; i--) {
            VolumeKind kind = kinds[numbers.below(kinds.length)];
            int cluster = kind == VolumeKind.FAT12 ? 16384 : kind == VolumeKind.FAT16 ? 2048 : (kind == VolumeKind.EXT4 ? 1024 : 512) << numbers.below(3);
            long mib = switch (kind) {
                case FAT12 -> 8 + numbers.below(40);
                case FAT16 -> 12 + numbers.below(60);
                case FAT32 -> 40L * cluster / 512 + numbers.below(20);
                default -> 8 + numbers.below(60);
            };
            VolumeDescription volume = new VolumeDescription(kind, "RANDOM", numbers.next(), cluster,
                    Folder.root(Samples.TIMES, nodes(numbers, 2, kind == VolumeKind.FAT12 || kind == VolumeKind.FAT16 ? 12 : 40)));
            partitions.add(PartitionDescription.primary(next, mib * MIB, 0x07).with(volume));
            next += (mib + numbers.below(3)) * MIB;
        }
        PartitionDescription[] all = partitions.toArray(PartitionDescription[]::new);
        return gpt ? DiskDescription.gpt(next + MIB, 512, seed, null, all) : DiskDescription.mbr(next + MIB, 512, seed, 1, all);
    }

    private static List<Node> nodes(SplitMix64 numbers, int depth, int most) {
        List<Node> nodes = new ArrayList<>();
        ContentKind[] contents = {ContentKind.TEXT, ContentKind.RANDOM, ContentKind.PDF, ContentKind.WAV, ContentKind.ZERO};
        for (int i = numbers.below(most); i > 0; i--) {
            String name = name(numbers) + i;
            if (depth > 0 && numbers.below(5) == 0) {
                nodes.add(Folder.of(name, Samples.TIMES, nodes(numbers, depth - 1, 20)));
                continue;
            }
            DataFile file = DataFile.of(name, numbers.below(2) == 0 ? numbers.below(900) : numbers.below(40_000),
                    contents[numbers.below(contents.length)], Samples.TIMES).inPieces(1 + numbers.below(3));
            nodes.add(numbers.below(8) == 0 ? file.asDeleted() : file);
        }
        return nodes;
    }

    private static String name(SplitMix64 numbers) {
        String letters = "abcXYZ019 äßжλ漢._-~'&";
        StringBuilder name = new StringBuilder("n");
        for (int i = numbers.below(numbers.below(4) == 0 ? 120 : 20); i > 0; i--) {
            name.append(letters.charAt(numbers.below(letters.length())));
        }
        return name.append('_').toString();
    }
}
