package sectorglass.make;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.AbstractList;
import java.util.List;
import java.util.Locale;
import java.util.function.IntFunction;

/**
 * Volumes with very many files, for benchmarks: folders of a thousand files each, made one by one, with sizes from one byte to 16
 * KiB and no content, so that the image is sparse. Every sixteenth file lies in several runs of clusters.
 */
public final class BigVolume {
    private static final int PER_FOLDER = 1000;
    private static final int LARGEST = 16 << 10;
    private static final Instant FIRST = Instant.parse("2024-01-01T00:00:00Z");

    private BigVolume() {
    }

    /**
     * Describes such a volume without a partition map.
     *
     * @param kind NTFS, exFAT and ext4 bear names of 24 characters, FAT32 such of 8.3
     * @param files number of files, a multiple of 1000
     */
    public static DiskDescription describe(VolumeKind kind, int files) {
        if (files < PER_FOLDER || files % PER_FOLDER != 0) {
            throw new IllegalArgumentException("files=" + files + ", wanted is a multiple of " + PER_FOLDER);
        }
        boolean shortNames = kind == VolumeKind.FAT12 || kind == VolumeKind.FAT16 || kind == VolumeKind.FAT32;
        Folder root = Folder.root(time(0),
                DataFile.of("README.TXT", 700, ContentKind.NOTICE, time(0)),
                Folder.of("FILES", time(0), new Many(files / PER_FOLDER, number -> folder(number, shortNames))));
        // 16 KiB and one gap for each file, records and tables besides
        long sectors = (files * 22L << 10) / 512 + (256L << 20) / 512;
        return DiskDescription.volume(sectors, 512, 1, new VolumeDescription(kind, "MANY", 0x1234ABCDL, 4096, root));
    }

    private static Times time(int minutes) {
        return Times.at(FIRST.plusSeconds(60L * minutes));
    }

    private static Folder folder(int number, boolean shortNames) {
        return Folder.of("FOLD" + digits(number, 4), time(number),
                new Many(PER_FOLDER, inside -> file(number * PER_FOLDER + inside, shortNames)));
    }

    private static DataFile file(int number, boolean shortNames) {
        String name = shortNames ? "P" + digits(number, 7) + ".JPG"
                : "picture-" + digits(number / PER_FOLDER, 4) + "-" + digits(number % PER_FOLDER, 7) + ".jpg";
        long bytes = 1 + (number * 2_654_435_761L >>> 7) % LARGEST;
        return DataFile.of(name, bytes, ContentKind.ZERO, time(number % 500_000)).inPieces(number % 16 == 3 ? 3 : 1);
    }

    private static String digits(int number, int width) {
        String digits = Integer.toString(number);
        return "0".repeat(Math.max(0, width - digits.length())) + digits;
    }

    /** A list whose elements are made when asked for. */
    private static final class Many extends AbstractList<Node> {
        private final int count;
        private final IntFunction<Node> maker;

        Many(int count, IntFunction<Node> maker) {
            this.count = count;
            this.maker = maker;
        }

        @Override
        public Node get(int index) {
            if (index < 0 || index >= count) {
                throw new IndexOutOfBoundsException("index=" + index + " of " + count);
            }
            return maker.apply(index);
        }

        @Override
        public int size() {
            return count;
        }
    }

    /**
     * Writes such a volume: kind, file, and number of files (a million by default, of exFAT 200,000).
     *
     * @throws IOException if the file cannot be written
     */
    public static void main(String... arguments) throws IOException {
        if (arguments.length < 2) {
            throw new IllegalArgumentException("kind " + List.of(VolumeKind.FAT32, VolumeKind.EXFAT, VolumeKind.NTFS, VolumeKind.EXT4)
                    + ", file, number of files");
        }
        VolumeKind kind = VolumeKind.valueOf(arguments[0].toUpperCase(Locale.ROOT));
        int files = arguments.length > 2 ? Integer.parseInt(arguments[2]) : kind == VolumeKind.EXFAT ? 200_000 : 1_000_000;
        DiskMaker.withoutPlaces().make(describe(kind, files), Path.of(arguments[1]));
    }
}
