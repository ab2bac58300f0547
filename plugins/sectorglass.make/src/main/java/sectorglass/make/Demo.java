package sectorglass.make;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

/**
 * The demo disk: the small archive of an invented photographer on 256 MiB, with faults planted on purpose. It needs a few MiB on a
 * file system that stores holes, and its bytes are the same on every machine.
 */
public final class Demo {

    /** The forms in which the disk can be written. */
    public enum Variant {
        /** GPT with planted faults. */
        GPT(true, true, false),
        /** MBR with logical partitions and planted faults. */
        MBR(false, true, false),
        /** GPT without any fault. */
        GPT_SOUND(true, false, false),
        /** MBR without any fault. */
        MBR_SOUND(false, false, false),
        /** GPT with planted faults, read in part: with a read map, and with filler where nothing was read. */
        PARTLY_READ(true, true, true),
        /** GPT without other faults, but LBA 0 wiped and the primary header damaged. */
        WIPED(true, false, false);

        private final boolean gpt;
        private final boolean faults;
        private final boolean partly;

        Variant(boolean gpt, boolean faults, boolean partly) {
            this.gpt = gpt;
            this.faults = faults;
            this.partly = partly;
        }

        /** Name of the image file. */
        public String fileName() {
            return "demo-" + name().toLowerCase(Locale.ROOT).replace('_', '-') + ".img";
        }
    }

    /**
     * What was written.
     *
     * @param image the image
     * @param readMap the read map, or null where everything was read
     * @param faults the planted faults
     * @param disk the disk as it was before faults and filler
     */
    public record Written(Path image, Path readMap, List<PlantedFault> faults, MadeDisk disk) {
    }

    private Demo() {
    }

    /**
     * Writes a variant into a folder, which is made if it is missing. Older files of these names are replaced.
     *
     * @throws IOException if a file cannot be written
     */
    public static Written write(Path folder, Variant variant) throws IOException {
        Files.createDirectories(folder);
        Path image = folder.resolve(variant.fileName());
        DiskDescription description = variant.gpt ? DemoDisk.gpt() : DemoDisk.mbr();
        try (SparseFile medium = SparseFile.create(image, description.bytes())) {
            MadeDisk disk = DiskMaker.withPlaces().make(description, medium);
            List<PlantedFault> faults = variant == Variant.WIPED ? Damage.plant(medium, DemoFaults.wiped())
                    : variant.faults ? Damage.plant(medium, DemoFaults.of(disk)) : List.of();
            Path readMap = null;
            if (variant.partly) {
                readMap = folder.resolve(variant.fileName().replace(".img", ".csv"));
                DemoReadMap map = new DemoReadMap(disk);
                map.fill(medium);
                map.write(readMap);
            }
            return new Written(image, readMap, faults, disk);
        }
    }

    /**
     * Writes demo disks: a folder, then variants by name, all of them where none is given. Prints the files and faults.
     *
     * @throws IOException if a file cannot be written
     */
    public static void main(String... arguments) throws IOException {
        if (arguments.length == 0) {
            throw new IllegalArgumentException("folder, then variants: " + List.of(Variant.values()));
        }
        List<Variant> variants = arguments.length == 1 ? List.of(Variant.values())
                : List.of(arguments).subList(1, arguments.length).stream()
                        .map(name -> Variant.valueOf(name.toUpperCase(Locale.ROOT).replace('-', '_'))).toList();
        for (Variant variant : variants) {
            Written written = write(Path.of(arguments[0]), variant);
            System.out.println(written.image());
            for (PlantedFault fault : written.faults()) {
                System.out.println("  " + fault.check() + " at byte " + fault.firstByte() + ": " + fault.what());
            }
            if (written.readMap() != null) {
                System.out.println(written.readMap());
            }
        }
    }
}
