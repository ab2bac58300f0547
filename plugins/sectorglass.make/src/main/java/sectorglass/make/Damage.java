package sectorglass.make;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/**
 * A damage to plant in a made disk.
 *
 * @param fault what is changed and who has to notice
 * @param change how
 */
public record Damage(PlantedFault fault, Change change) {

    /** Changes bytes of a made disk. */
    @FunctionalInterface
    public interface Change {

        /**
         * Makes the change.
         *
         * @throws IOException if the file fails
         */
        void apply(Medium disk) throws IOException;
    }

    /** A damage by any function. */
    public static Damage by(String check, String what, long firstByte, int length, Change change) {
        return new Damage(new PlantedFault(check, firstByte, length, what, false), change);
    }

    /** Puts bytes over what is there. */
    public static Damage put(String check, String what, long firstByte, byte... bytes) {
        byte[] copy = bytes.clone();
        return by(check, what, firstByte, copy.length, disk -> disk.write(firstByte, copy));
    }

    /** Flips bits of one byte. */
    public static Damage flip(String check, String what, long firstByte, int mask) {
        return by(check, what, firstByte, 1, disk -> {
            byte[] one = disk.read(firstByte, 1);
            one[0] ^= (byte) mask;
            disk.write(firstByte, one);
        });
    }

    /** Fills a range with one byte. */
    public static Damage fill(String check, String what, long firstByte, int length, int value) {
        return by(check, what, firstByte, length, disk -> {
            byte[] bytes = new byte[length];
            java.util.Arrays.fill(bytes, (byte) value);
            disk.write(firstByte, bytes);
        });
    }

    /** The same, found by a full verification only. */
    public Damage inFull() {
        return new Damage(new PlantedFault(fault.check(), fault.firstByte(), fault.length(), fault.what(), true), change);
    }

    /** Plants damages in their order. */
    public static List<PlantedFault> plant(Medium disk, List<Damage> damages) throws IOException {
        List<PlantedFault> faults = new ArrayList<>();
        for (Damage damage : damages) {
            damage.change().apply(disk);
            faults.add(damage.fault());
        }
        return List.copyOf(faults);
    }
}
