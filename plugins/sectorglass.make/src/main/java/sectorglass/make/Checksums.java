package sectorglass.make;

import sectorglass.make.exfat.ExfatSums;
import sectorglass.make.ext.Crc32c;

/** The checksums of the volumes that are made here, for whoever changes their bytes afterwards and wants the sums to hold again. */
public final class Checksums {

    private Checksums() {
    }

    /**
     * CRC-32C without inversion, as ext4 chains it.
     *
     * @param start what went before, -1 at first
     */
    public static int crc32c(int start, byte[] bytes, int from, int length) {
        return Crc32c.of(start, bytes, from, length);
    }

    /** Goes on over four bytes, lowest first. */
    public static int crc32c(int start, long value) {
        return Crc32c.of(start, value);
    }

    /** The sum of an exFAT boot region: VolumeFlags and PercentInUse are left out (Microsoft exFAT specification, section 3.4). */
    public static int exfatBoot(byte[] region, int bytes) {
        return ExfatSums.boot(region, bytes);
    }

    /** The sum of an exFAT directory entry set without its own place (Microsoft exFAT specification, section 6.3.3). */
    public static int exfatSet(byte[] bytes, int from, int length) {
        return ExfatSums.set(bytes, from, length);
    }

    /** The hash of an exFAT name in upper case (Microsoft exFAT specification, section 7.6.4). */
    public static int exfatNameHash(String name) {
        return ExfatSums.nameHash(name);
    }
}
