package sectorglass.apple;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;

import sectorglass.disk.Content;
import sectorglass.disk.Extent;
import sectorglass.disk.ExtentContent;
import sectorglass.image.ByteRange;

/**
 * Content that lies in blocks of 64 KiB, each compressed by itself, in the resource fork: zlib, or as it is. Of a block that was read in
 * part, what decompresses before the gap is given. One that was read but does not decompress counts as missing once that was found by
 * reading it. The last block is kept. Source: apfs_compress_rsrc_data and compress.c of linux-apfs.
 */
final class DecmpfsContent implements Content {
    static final int BLOCK = 1 << 16;
    private static final int MOST_BLOCKS = 1 << 20;

    private final Content resource;
    private final long bytes;
    private final boolean zlib;
    /** Byte in the resource fork and stored length of each block; null where the table was not read or is not legal. */
    private final long[] places;
    private final BitSet damaged = new BitSet();
    private long kept = -1;
    private byte[] block = new byte[0];

    DecmpfsContent(Content resource, long bytes, boolean zlib) {
        this.resource = resource;
        this.zlib = zlib;
        this.bytes = bytes;
        this.places = table();
    }

    private long[] table() {
        byte[] head = new byte[4];
        if (resource.bytes() < 16 || !resource.read(0, head, 0, 4).isEmpty()) {
            return null;
        }
        long data = (head[0] & 0xFFL) << 24 | (head[1] & 0xFF) << 16 | (head[2] & 0xFF) << 8 | head[3] & 0xFF;
        byte[] count = new byte[8];
        if (data + 8 > resource.bytes() || !resource.read(data, count, 0, 8).isEmpty()) {
            return null;
        }
        long blocks = Decmpfs.number(count, 4, 4);
        if (blocks != (bytes + BLOCK - 1) / BLOCK || blocks > (resource.bytes() - data - 8) / 8 || blocks > MOST_BLOCKS) {
            return null;
        }
        byte[] entries = new byte[(int) blocks * 8];
        if (!resource.read(data + 8, entries, 0, entries.length).isEmpty()) {
            return null;
        }
        long[] all = new long[(int) blocks * 2];
        for (int i = 0; i < blocks; i++) {
            all[2 * i] = data + 4 + Decmpfs.number(entries, 8 * i, 4);
            all[2 * i + 1] = Decmpfs.number(entries, 8 * i + 4, 4);
            if (all[2 * i + 1] < 1 || all[2 * i + 1] > BLOCK + 1 || all[2 * i] + all[2 * i + 1] > resource.bytes()) {
                return null;
            }
        }
        return all;
    }

    /**
     * Decompresses one block.
     *
     * @param length bytes that are there
     * @param bytes length of the content
     * @param zlib whether blocks are zlib streams, but for those that start with a byte that ends in F; else all start with a byte of no
     *     meaning
     * @return as much of the content as could be had
     */
    static byte[] block(byte[] stored, int length, int bytes, boolean zlib) {
        byte[] out = new byte[bytes];
        if (length > 0 && (!zlib || stored[0] != 0x78)) {
            int n = !zlib || (stored[0] & 0xF) == 0xF ? Math.min(bytes, length - 1) : 0;
            return Arrays.copyOfRange(stored, 1, 1 + n);
        }
        Inflater inflater = new Inflater();
        try {
            inflater.setInput(stored, 0, length);
            int done = 0;
            while (done < bytes) {
                int n = inflater.inflate(out, done, bytes - done);
                if (n == 0) {
                    break;
                }
                done += n;
            }
            return done == bytes ? out : Arrays.copyOf(out, done);
        } catch (DataFormatException e) {
            return Arrays.copyOf(out, (int) Math.min(bytes, inflater.getBytesWritten()));
        } finally {
            inflater.end();
        }
    }

    private int length(long number) {
        return (int) Math.min(BLOCK, bytes - number * BLOCK);
    }

    private synchronized byte[] load(long number) {
        if (kept != number) {
            int at = (int) number * 2;
            byte[] stored = new byte[(int) places[at + 1]];
            List<ByteRange> gaps = resource.read(places[at], stored, 0, stored.length);
            block = block(stored, gaps.isEmpty() ? stored.length : (int) (gaps.get(0).start() - places[at]), length(number),
                    zlib);
            kept = number;
            if (gaps.isEmpty() && block.length < length(number)) {
                damaged.set((int) number);
            }
        }
        return block;
    }

    @Override
    public long bytes() {
        return bytes;
    }

    @Override
    public List<Extent> extents() {
        if (places == null) {
            return bytes == 0 ? List.of() : List.of(Extent.unknown(0, bytes));
        }
        List<Extent> all = new ArrayList<>();
        List<Extent> stored = resource.extents();
        for (int i = 0; i < places.length / 2; i++) {
            long offset = (long) i * BLOCK;
            parts(stored, places[2 * i], places[2 * i + 1], offset, length(i), all);
        }
        return all;
    }

    /** The pieces of a block: its bytes belong to all of them together, so all but the first take one byte. */
    private static void parts(List<Extent> stored, long from, long count, long offset, int length, List<Extent> all) {
        List<Extent> parts = new ArrayList<>(1);
        int start = 0;
        for (int high = stored.size(); start < high;) {
            int middle = start + high >>> 1;
            if (stored.get(middle).end() <= from) {
                start = middle + 1;
            } else {
                high = middle;
            }
        }
        for (int i = start; i < stored.size() && stored.get(i).offset() < from + count; i++) {
            Extent e = stored.get(i);
            long first = Math.max(from, e.offset());
            long end = Math.min(from + count, e.end());
            if (e.placed() && parts.size() < length) {
                parts.add(new Extent(Extent.Kind.COMPRESSED, 0, 1, e.imageByte() + first - e.offset(), end - first));
            }
        }
        if (parts.isEmpty()) {
            all.add(Extent.unknown(offset, length));
            return;
        }
        long at = offset;
        for (int i = 0; i < parts.size(); i++) {
            long take = i == 0 ? length - (parts.size() - 1L) : 1;
            all.add(new Extent(Extent.Kind.COMPRESSED, at, take, parts.get(i).imageByte(), parts.get(i).stored()));
            at += take;
        }
    }

    @Override
    public List<ByteRange> read(long offset, byte[] into, int at, int length) {
        List<ByteRange> missing = new ArrayList<>(0);
        Arrays.fill(into, at, at + length, (byte) 0);
        if (places == null) {
            ExtentContent.add(missing, offset, length);
            return missing;
        }
        for (long from = offset; from < offset + length;) {
            long number = from / BLOCK;
            long to = Math.min(offset + length, Math.min(bytes, (number + 1) * BLOCK));
            byte[] good = load(number);
            int n = (int) Math.max(0, Math.min(to - from, number * BLOCK + good.length - from));
            if (n > 0) {
                System.arraycopy(good, (int) (from - number * BLOCK), into, (int) (at + from - offset), n);
            }
            ExtentContent.add(missing, from + n, to - from - n);
            from = to;
        }
        return missing;
    }

    @Override
    public List<ByteRange> missing() {
        List<ByteRange> missing = new ArrayList<>(0);
        if (places == null) {
            ExtentContent.add(missing, 0, bytes);
            return missing;
        }
        BitSet torn = torn();
        for (int i = 0; i < places.length / 2; i++) {
            if (torn.get(i)) {
                byte[] good = load(i);
                ExtentContent.add(missing, (long) i * BLOCK + good.length, length(i) - good.length);
            }
        }
        return missing;
    }

    /** Blocks that do not decompress, and those some of whose bytes are missing. */
    private BitSet torn() {
        BitSet torn = (BitSet) damaged.clone();
        List<ByteRange> gaps = resource.missing();
        for (int i = 0; i < places.length / 2 && !gaps.isEmpty(); i++) {
            long from = places[2 * i];
            int low = 0;
            for (int high = gaps.size(); low < high;) {
                int middle = low + high >>> 1;
                if (gaps.get(middle).end() <= from) {
                    low = middle + 1;
                } else {
                    high = middle;
                }
            }
            if (low < gaps.size() && gaps.get(low).start() < from + places[2 * i + 1]) {
                torn.set(i);
            }
        }
        return torn;
    }
}
