package sectorglass.make.ntfs;

import java.time.Instant;

import sectorglass.make.Times;
import sectorglass.make.write.Block;

/** Values of the attributes that every file has, and their type codes. */
final class Attributes {
    static final int STANDARD_INFORMATION = 0x10;
    static final int ATTRIBUTE_LIST = 0x20;
    static final int FILE_NAME = 0x30;
    static final int VOLUME_NAME = 0x60;
    static final int VOLUME_INFORMATION = 0x70;
    static final int DATA = 0x80;
    static final int INDEX_ROOT = 0x90;
    static final int INDEX_ALLOCATION = 0xA0;
    static final int BITMAP = 0xB0;

    static final int HIDDEN_SYSTEM = 0x06;
    static final long DIRECTORY_NAME = 0x10000000L;
    static final int SECURITY_ID = 0x100;

    /** 1601-01-01 in seconds of the Unix era (MS-DTYP 2.3.3). */
    private static final long EPOCH = -11_644_473_600L;

    private Attributes() {
    }

    /** Ticks of 100 ns since 1601-01-01 UTC. */
    static long fileTime(Instant instant) {
        return Math.addExact(Math.multiplyExact(instant.getEpochSecond() - EPOCH, 10_000_000L), instant.getNano() / 100);
    }

    static long reference(long record, int sequence) {
        return record | (long) sequence << 48;
    }

    private static void times(Block block, int at, Times times) {
        block.u64(at, fileTime(times.created())).u64(at + 8, fileTime(times.modified()));
        block.u64(at + 16, fileTime(times.modified())).u64(at + 24, fileTime(times.accessed()));
    }

    static byte[] standardInformation(Times times, int attributes) {
        Block block = new Block(0x48);
        times(block, 0, times);
        return block.u32(0x20, attributes).u32(0x34, SECURITY_ID).bytes();
    }

    /**
     * A name as a record and a directory hold it.
     *
     * @param parent reference of the folder
     * @param attributes with {@link #DIRECTORY_NAME} for a folder
     */
    static byte[] fileName(String name, long parent, Times times, long allocated, long real, long attributes) {
        Block block = new Block(0x42 + 2 * name.length());
        block.u64(0, parent);
        times(block, 8, times);
        block.u64(0x28, allocated).u64(0x30, real).u32(0x38, attributes);
        return block.u8(0x40, name.length()).u8(0x41, nameSpace(name)).utf16(0x42, name).bytes();
    }

    /** 3 where the name serves as 8.3 name too, else 0: name space 1 would ask for a second, short name. */
    private static int nameSpace(String name) {
        return name.startsWith("$") || name.equals(".") || name.matches("[A-Z0-9_~-]{1,8}(\\.[A-Z0-9_~-]{1,3})?") ? 3 : 0;
    }

    static void check(String name) {
        boolean legal = !name.isEmpty() && name.length() <= 255 && !name.endsWith(".") && !name.endsWith(" ")
                && name.chars().allMatch(unit -> unit >= 0x20 && "\"*/:<>?\\|".indexOf(unit) < 0);
        if (!legal) {
            throw new IllegalArgumentException("NTFS cannot store the name \"" + name + "\" for all systems");
        }
    }
}
