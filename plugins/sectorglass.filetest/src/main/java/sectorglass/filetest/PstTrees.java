package sectorglass.filetest;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import java.util.HashSet;
import java.util.Set;

import sectorglass.recovery.opening.TestResult;
import sectorglass.recovery.opening.TestedFile;

/**
 * The trees of a PST mail store with 64-bit places: of blocks (BBT) and of nodes (NBT), the blocks, the allocation maps. Pages and blocks end in
 * a trailer with type, signature, checksum and their own number. Sizes and places as in [MS-PST], section 2.2.2.7 and 2.2.2.8, from memory.
 */
final class PstTrees {
    private static final int BLOCKS = 0x80;
    private static final int NODES = 0x81;
    private static final int MAP = 0x84;
    private static final long FIRST_MAP = 0x4400;
    private static final int MOST_LEVELS = 12;

    private final TestedFile file;
    private final boolean large;
    private final int page;
    /** Bytes of the trailer of a page; of a block too in the large form. */
    private final int trailer;
    private final Set<Long> seen = new HashSet<>();
    private long[] known = new long[1024];
    private int count;

    /** What is wrong. */
    static final class Wrong extends Exception {
        private static final long serialVersionUID = 1L;
        private final transient TestResult result;

        private Wrong(TestResult result) {
            super(null, null, false, false);
            this.result = result;
        }

        TestResult result() {
            return result;
        }
    }

    /** @param large whether pages have 4096 bytes instead of 512 */
    PstTrees(TestedFile file, boolean large) {
        this.file = file;
        this.large = large;
        this.page = large ? 4096 : 512;
        this.trailer = large ? 24 : 16;
    }

    /** Walks over everything; ends in peace where it holds. */
    void test() throws IOException, Wrong {
        // ROOT at 180: BREFNBT at its byte 36, BREFBBT at 52, ibAMapLast at 12, fAMapValid at 68
        walk(file.little(240, 8), file.little(232, 8), BLOCKS, -1);
        walk(file.little(224, 8), file.little(216, 8), NODES, -1);
        if (!large && file.little(248, 1) != 0) {
            maps(file.little(192, 8));
        }
    }

    private static Wrong crc(String what, long at) {
        return new Wrong(TestResult.damaged("test.chunk", what, at));
    }

    private static Wrong form(long at, String what) {
        return new Wrong(TestResult.damaged("test.form", at, what));
    }

    private static String name(int type) {
        return type == BLOCKS ? "BBT" : type == NODES ? "NBT" : "AMap";
    }

    /** A page whose trailer is right. */
    private ByteBuffer page(long at, long number, int type) throws IOException, Wrong {
        file.checkTime();
        byte[] bytes = file.bytes(at, page);
        ByteBuffer read = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
        int end = page - trailer;
        if ((bytes[end] & 0xFF) != type || bytes[end + 1] != bytes[end]) {
            throw form(at, name(type) + ", ptype " + (bytes[end] & 0xFF));
        }
        if ((read.getInt(end + 4) & 0xFFFFFFFFL) != PstCrc.of(bytes, end)) {
            throw crc(name(type), at);
        }
        int signature = type == MAP ? 0 : signature(at, number);
        if (read.getLong(end + 8) != number || (read.getShort(end + 2) & 0xFFFF) != signature) {
            throw form(at, name(type) + ", wSig");
        }
        return read;
    }

    /** Of a page or block at a place, with its number ([MS-PST], section 5.5; from memory). */
    private static int signature(long at, long number) {
        long both = (at ^ number) & 0xFFFFFFFFL;
        return (int) ((both >>> 16 ^ both) & 0xFFFF);
    }

    private void walk(long at, long number, int type, int expected) throws IOException, Wrong {
        if (!seen.add(at)) {
            throw form(at, name(type) + " twice");
        }
        ByteBuffer read = page(at, number, type);
        int meta = large ? page - 40 : 488;
        int entries = large ? read.getShort(meta) & 0xFFFF : read.get(meta) & 0xFF;
        int size = read.get(meta + (large ? 4 : 2)) & 0xFF;
        int level = read.get(meta + (large ? 5 : 3)) & 0xFF;
        int least = level > 0 || type == BLOCKS ? 24 : 32;
        if (level > MOST_LEVELS || expected >= 0 && level != expected || size < least || entries * size > meta) {
            throw form(at, name(type) + ", cLevel " + level + ", cEnt " + entries);
        }
        long before = -1;
        for (int i = 0; i < entries; i++) {
            int entry = i * size;
            long key = read.getLong(entry);
            if (i > 0 && Long.compareUnsigned(key, before) <= 0) {
                throw form(at, name(type) + ", btkey");
            }
            before = key;
            if (level > 0) {
                walk(read.getLong(entry + 16), read.getLong(entry + 8), type, level - 1);
            } else if (type == BLOCKS) {
                block(read.getLong(entry + 8), key, read.getShort(entry + 16) & 0xFFFF);
            } else {
                refers(at, read.getLong(entry + 8));
                refers(at, read.getLong(entry + 16));
            }
        }
    }

    private void block(long at, long number, int length) throws IOException, Wrong {
        int unit = large ? 512 : 64;
        int whole = (length + trailer + unit - 1) / unit * unit;
        byte[] bytes = file.bytes(at, whole);
        ByteBuffer read = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
        int end = whole - trailer;
        if ((read.getInt(end + 4) & 0xFFFFFFFFL) != PstCrc.of(bytes, length)) {
            throw crc("block", at);
        }
        if ((read.getShort(end) & 0xFFFF) != length || (read.getShort(end + 2) & 0xFFFF) != signature(at, number) || read.getLong(end + 8) != number) {
            throw form(at, "block, wSig");
        }
        long plain = number & ~1L;
        if (count > 0 && Long.compareUnsigned(plain, known[count - 1]) <= 0) {
            throw form(at, "bid");
        }
        if (count == known.length) {
            known = Arrays.copyOf(known, count * 2);
        }
        known[count++] = plain;
    }

    /** A node names only blocks that there are; 0 stands for none. */
    private void refers(long at, long number) throws Wrong {
        if (number != 0 && Arrays.binarySearch(known, 0, count, number & ~1L) < 0) {
            throw form(at, "NBT, bid " + Long.toHexString(number));
        }
    }

    private void maps(long last) throws IOException, Wrong {
        long each = (page - trailer) * 8L * 64;
        for (long at = FIRST_MAP; at <= last && at >= 0; at += each) {
            page(at, at, MAP);
        }
    }
}
