package sectorglass.make.exfat;

import sectorglass.make.write.Block;
import sectorglass.make.write.UpCase;

/** The rotate-and-add sums of exFAT (Microsoft exFAT specification, sections 3.4, 6.3.3, 7.2.2 and 7.6.4). */
public final class ExfatSums {

    private ExfatSums() {
    }

    /** 32-bit sum. */
    public static int sum32(int start, byte[] bytes, int from, int length) {
        int sum = start;
        for (int i = from; i < from + length; i++) {
            sum = Integer.rotateRight(sum, 1) + (bytes[i] & 0xFF);
        }
        return sum;
    }

    /** 32-bit sum over the eleven sectors of a boot region, without VolumeFlags and PercentInUse. */
    public static int boot(byte[] region, int bytes) {
        int sum = sum32(0, region, 0, 106);
        sum = sum32(sum, region, 108, 4);
        return sum32(sum, region, 113, bytes - 113);
    }

    private static int add16(int sum, int value) {
        return ((sum & 1) << 15 | sum >> 1) + value & 0xFFFF;
    }

    /** Sum over an entry set without its own place. */
    public static int set(byte[] bytes, int from, int length) {
        int sum = 0;
        for (int i = 0; i < length; i++) {
            if (i != 2 && i != 3) {
                sum = add16(sum, bytes[from + i] & 0xFF);
            }
        }
        return sum;
    }

    /** Hash of a name in upper case. */
    public static int nameHash(String name) {
        int sum = 0;
        Block unit = new Block(2);
        for (int i = 0; i < name.length(); i++) {
            unit.u16(0, UpCase.EXFAT.of(name.charAt(i)));
            sum = add16(add16(sum, unit.bytes()[0] & 0xFF), unit.bytes()[1] & 0xFF);
        }
        return sum;
    }
}
