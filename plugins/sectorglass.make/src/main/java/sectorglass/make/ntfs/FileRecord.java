package sectorglass.make.ntfs;

import java.util.List;

import sectorglass.make.write.Block;
import sectorglass.make.write.ClusterRun;

/** One file record of NTFS 3.1 while it is put together, attribute after attribute in rising order of their types. */
final class FileRecord {
    static final int IN_USE = 1;
    static final int DIRECTORY = 2;
    static final int VIEW_INDEX = 8;

    private static final int UPDATE_SEQUENCE = 0x30;
    private static final int END = 8;

    private final Block block;
    private final long number;
    private int at;
    private int nextId;

    /**
     * An empty record.
     *
     * @param links number of names
     */
    FileRecord(int bytes, long number, int sequence, int flags, int links) {
        this.number = number;
        block = new Block(bytes);
        at = FixUps.end(UPDATE_SEQUENCE, bytes);
        block.ascii(0, "FILE").u16(0x10, sequence).u16(0x12, links).u16(0x14, at).u16(0x16, flags).u32(0x1C, bytes);
        block.u32(0x2C, number);
    }

    /** Makes this an extension of another record. */
    FileRecord extending(long baseReference) {
        block.u64(0x20, baseReference);
        return this;
    }

    /** Bytes left for further attributes. */
    int room() {
        return block.bytes().length - END - at;
    }

    /** Bytes of a resident attribute. */
    static int residentBytes(String name, int value) {
        return (0x18 + 2 * name.length() + 7 & ~7) + value + 7 & ~7;
    }

    void resident(int type, String name, byte[] value, boolean indexed) {
        int valueOffset = 0x18 + 2 * name.length() + 7 & ~7;
        int start = header(type, residentBytes(name, value.length), false, name, 0x18);
        block.u32(start + 0x10, value.length).u16(start + 0x14, valueOffset).u8(start + 0x16, indexed ? 1 : 0);
        block.put(start + valueOffset, value);
    }

    /**
     * Adds a stream that lies in clusters.
     *
     * @param allocated bytes of its whole clusters
     * @param real its size
     * @param initialised bytes that were ever written
     */
    void nonResident(int type, String name, List<ClusterRun> runs, long allocated, long real, long initialised) {
        int start = piece(type, name, 0, runs);
        block.u64(start + 0x28, allocated).u64(start + 0x30, real).u64(start + 0x38, initialised);
    }

    /**
     * Adds a later piece of a stream, which bears no sizes.
     *
     * @return offset of the attribute
     */
    int piece(int type, String name, long firstVcn, List<ClusterRun> runs) {
        byte[] packed = RunList.pack(runs);
        int runOffset = 0x40 + 2 * name.length() + 7 & ~7;
        int start = header(type, runOffset + packed.length + 7 & ~7, true, name, 0x40);
        block.u64(start + 0x10, firstVcn).u64(start + 0x18, firstVcn + RunList.clusters(runs) - 1);
        block.u16(start + 0x20, runOffset).put(start + runOffset, packed);
        return start;
    }

    private int header(int type, int length, boolean nonResident, String name, int nameOffset) {
        if (length > room()) {
            throw new IllegalArgumentException("file record " + number + " has no room for an attribute of " + length
                    + " bytes; fewer pieces or shorter names are needed");
        }
        int start = at;
        block.u32(start, type).u32(start + 4, length).u8(start + 8, nonResident ? 1 : 0).u8(start + 9, name.length());
        block.u16(start + 0x0A, nameOffset).u16(start + 0x0E, nextId++).utf16(start + nameOffset, name);
        at += length;
        return start;
    }

    /** The finished record with its update sequence. */
    byte[] bytes() {
        block.u32(at, 0xFFFFFFFFL).u32(0x18, at + END).u16(0x28, nextId);
        FixUps.apply(block, UPDATE_SEQUENCE, 2);
        return block.bytes();
    }
}
