package sectorglass.testvolumes;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;

/**
 * Makes HFS+ and HFSX volumes for tests: files in pieces, extents beyond the eighth, resource forks, links, attributes, a journal. Not
 * part of any product. Source: Apple TN1150 by way of hfs_format.h and vfs_journal.c (xnu).
 */
public final class HfsPlusMaker {
    /** Id of the root folder. */
    public static final int ROOT = 2;
    /** Every date: 2023-11-14 22:13:20 UTC, in seconds since 1904. */
    public static final long TIME = 1700000000L + 2082844800L;

    private static final int[] FORKS = {112, 192, 272, 352, 432};

    private record Item(long parent, String name, byte[] data) { }

    private record Run(int start, int count) { }

    private record Overflow(long id, int fork, int first, List<Run> runs) { }

    private record Attribute(long id, String name, byte[] data) { }

    /** Whether names compare by their bytes, as HFSX allows. */
    private final boolean binary;
    private final boolean x;
    private final int blockSize;
    private final int nodeSize;
    private final byte[] image;
    private final int total;
    private final BitSet used = new BitSet();
    private final List<Item> items = new ArrayList<>();
    private final List<Overflow> overflow = new ArrayList<>();
    private final List<Attribute> attributes = new ArrayList<>();
    private final java.util.Map<Long, byte[]> folders = new java.util.HashMap<>();
    private int next = 16;
    private int files;
    private int flags = 0x100;
    private int journalInfo;
    private int runLength = Integer.MAX_VALUE;
    private int catalogRun = Integer.MAX_VALUE;

    /**
     * An empty volume.
     *
     * @param kind {@code H+}, {@code HX} or {@code HX binary}
     */
    public HfsPlusMaker(String kind, int blockSize, int blocks, int nodeSize, String label) {
        this.x = kind.startsWith("HX");
        this.binary = kind.equals("HX binary");
        this.blockSize = blockSize;
        this.nodeSize = nodeSize;
        this.total = blocks;
        this.image = new byte[blockSize * blocks];
        used.set(0, (1024 + 512 + blockSize - 1) / blockSize);
        used.set((int) ((image.length - 1024L) / blockSize), blocks);
        folder(1, label, ROOT);
    }

    /** From here on files lie in pieces of so many blocks, one free block behind each. */
    public HfsPlusMaker pieces(int blocks) {
        runLength = blocks;
        return this;
    }

    /** The catalog will lie in pieces of so many blocks. */
    public HfsPlusMaker catalogPieces(int blocks) {
        catalogRun = blocks;
        return this;
    }

    /** Sets further attributes of the volume header, or clears "unmounted" with 0x100. */
    public HfsPlusMaker toggle(int attribute) {
        flags ^= attribute;
        return this;
    }

    /** Adds a folder. */
    public int folder(int parent, String name) {
        return folder(parent, name, next++);
    }

    private int folder(int parent, String name, int id) {
        byte[] data = new byte[88];
        ByteBuffer w = ByteBuffer.wrap(data).putShort(0, (short) 1).putInt(8, id);
        times(w);
        w.putShort(42, (short) 040755);
        folders.put((long) id, data);
        items.add(new Item(parent, name, data));
        items.add(new Item(id, "", thread(3, parent, name)));
        grow(parent);
        return id;
    }

    private void grow(long parent) {
        byte[] data = folders.get(parent);
        if (data != null) {
            ByteBuffer w = ByteBuffer.wrap(data);
            w.putInt(4, w.getInt(4) + 1);
        }
    }

    private static void times(ByteBuffer w) {
        for (int at = 12; at < 28; at += 4) {
            w.putInt(at, (int) TIME);
        }
    }

    private static byte[] units(String name) {
        return Normalizer.normalize(name.replace(':', '/'), Normalizer.Form.NFD).getBytes(StandardCharsets.UTF_16BE);
    }

    private static byte[] thread(int type, long parent, String name) {
        byte[] units = units(name);
        return ByteBuffer.allocate(10 + units.length).putShort((short) type).putShort((short) 0).putInt((int) parent)
                .putShort((short) (units.length / 2)).put(units).array();
    }

    /** Adds a file with a data fork; gives its id. */
    public int file(int parent, String name, byte[] data) {
        return file(parent, name, data, new byte[0], "????????", 0, 0100644, 0);
    }

    /**
     * Adds a file.
     *
     * @param finder type and creator, eight characters
     * @param special what the field of that name holds: inode number of a link, links of an inode
     * @param mode type and rights
     * @param ownerFlags 0x20: compressed
     */
    public int file(int parent, String name, byte[] data, byte[] resource, String finder, int special, int mode, int ownerFlags) {
        int id = next++;
        byte[] record = new byte[248];
        ByteBuffer w = ByteBuffer.wrap(record).putShort(0, (short) 2).putShort(2, (short) 2).putInt(8, id);
        times(w);
        w.put(41, (byte) ownerFlags).putShort(42, (short) mode).putInt(44, special);
        System.arraycopy(finder.getBytes(StandardCharsets.US_ASCII), 0, record, 48, 8);
        fork(w, 88, id, 0, data, runLength);
        fork(w, 168, id, 0xFF, resource, runLength);
        items.add(new Item(parent, name, record));
        items.add(new Item(id, "", thread(4, parent, name)));
        grow(parent);
        files++;
        return id;
    }

    /** Adds an attribute with inline data. */
    public void attribute(int id, String name, byte[] value) {
        int padded = value.length + (value.length & 1);
        attributes.add(new Attribute(id, name, ByteBuffer.allocate(16 + padded).putInt(0x10).putLong(0).putInt(value.length).put(value).array()));
    }

    /** Adds an attribute whose data lie in blocks of their own. */
    public void attributeFork(int id, String name, byte[] value) {
        byte[] data = new byte[88];
        ByteBuffer w = ByteBuffer.wrap(data).putInt(0, 0x20);
        fork(w, 8, 0, -1, value, Integer.MAX_VALUE);
        attributes.add(new Attribute(id, name, data));
    }

    /** A bad block: the bad block file has extents only. */
    public void badBlock() {
        int block = take(1).get(0).start();
        overflow.add(new Overflow(5, 0, 0, List.of(new Run(block, 1))));
    }

    /**
     * Adds a journal, as its two files.
     *
     * @param pending whether transactions wait in it
     */
    public void journal(int bytes, boolean pending) {
        byte[] content = new byte[bytes];
        ByteBuffer w = ByteBuffer.wrap(content).order(java.nio.ByteOrder.LITTLE_ENDIAN).putInt(0, 0x4A4E4C78).putInt(4, 0x12345678)
                .putLong(8, 512).putLong(16, pending ? 4096 : 512).putLong(24, bytes).putInt(32, 4096).putInt(40, 512);
        int sum = 0;
        for (int i = 0; i < 44; i++) {
            sum = sum << 8 ^ sum + (content[i] & 0xFF);
        }
        w.putInt(36, ~sum);
        int keep = runLength;
        runLength = Integer.MAX_VALUE;
        int before = used.cardinality();
        file(ROOT, ".journal", content);
        long place = first(items.get(items.size() - 2).data()) * (long) blockSize;
        byte[] info = new byte[blockSize];
        ByteBuffer.wrap(info).putInt(0, 1).putLong(36, place).putLong(44, bytes);
        file(ROOT, ".journal_info_block", info);
        journalInfo = (int) first(items.get(items.size() - 2).data());
        runLength = keep;
        flags |= 0x2000;
        if (used.cardinality() <= before) {
            throw new IllegalStateException("no room for the journal");
        }
    }

    private static long first(byte[] record) {
        return ByteBuffer.wrap(record).getInt(88 + 16);
    }

    private List<Run> take(int blocks) {
        return take(blocks, Integer.MAX_VALUE);
    }

    private List<Run> take(int blocks, int most) {
        List<Run> runs = new ArrayList<>();
        int at = 0;
        for (int left = blocks; left > 0;) {
            int start = used.nextClearBit(at);
            int end = used.nextSetBit(start);
            if (most == Integer.MAX_VALUE && end >= 0 && end - start < left) {
                at = end;
                continue;
            }
            int count = Math.min(Math.min(left, most), (end < 0 ? total : end) - start);
            if (start >= total || count <= 0) {
                throw new IllegalStateException("the volume is full");
            }
            used.set(start, start + count);
            runs.add(new Run(start, count));
            left -= count;
            at = start + count + (most == Integer.MAX_VALUE ? 0 : 1);
        }
        return runs;
    }

    private void fork(ByteBuffer w, int at, long id, int kind, byte[] content, int most) {
        int blocks = (content.length + blockSize - 1) / blockSize;
        List<Run> runs = take(blocks, most);
        w.putLong(at, content.length).putInt(at + 8, 0).putInt(at + 12, blocks);
        int done = 0;
        int in = 0;
        for (int i = 0; i < runs.size(); i++) {
            Run run = runs.get(i);
            if (i < 8) {
                w.putInt(at + 16 + 8 * i, run.start()).putInt(at + 20 + 8 * i, run.count());
            } else if (i % 8 == 0) {
                overflow.add(new Overflow(id, kind, in, runs.subList(i, Math.min(i + 8, runs.size()))));
            }
            int n = Math.min(run.count() * blockSize, content.length - done);
            System.arraycopy(content, done, image, run.start() * blockSize, n);
            done += n;
            in += run.count();
        }
    }

    private int fold(char c) {
        return binary ? c : c == 0 ? 0xFFFF : Character.toLowerCase(c);
    }

    private int compare(String a, String b) {
        String left = new String(units(a), StandardCharsets.UTF_16BE);
        String right = new String(units(b), StandardCharsets.UTF_16BE);
        for (int i = 0; i < Math.min(left.length(), right.length()); i++) {
            int order = fold(left.charAt(i)) - fold(right.charAt(i));
            if (order != 0) {
                return order;
            }
        }
        return left.length() - right.length();
    }

    private static byte[] key(long id, String name) {
        byte[] units = units(name);
        return ByteBuffer.allocate(8 + units.length).putShort((short) (6 + units.length)).putInt((int) id)
                .putShort((short) (units.length / 2)).put(units).array();
    }

    /** The volume. */
    public byte[] write() {
        ByteBuffer w = ByteBuffer.wrap(image);
        items.sort(Comparator.comparingLong(Item::parent).thenComparing(Item::name, this::compare));
        byte[] catalog = new BigEndianTree(nodeSize, 516, 6, !x ? 0 : binary ? 0xBC : 0xCF).write(items.stream()
                .map(i -> new BigEndianTree.Entry(key(i.parent(), i.name()), i.data())).toList(), 4);
        fork(w, 1024 + FORKS[2], 4, 0, catalog, catalogRun);
        attributes.sort(Comparator.comparingLong(Attribute::id).thenComparing(Attribute::name));
        byte[] tree = new BigEndianTree(nodeSize, 266, 6, 0).write(attributes.stream().map(a -> {
            byte[] units = a.name().getBytes(StandardCharsets.UTF_16BE);
            return new BigEndianTree.Entry(ByteBuffer.allocate(14 + units.length).putShort((short) (12 + units.length)).putShort((short) 0)
                    .putInt((int) a.id()).putInt(0).putShort((short) (units.length / 2)).put(units).array(), a.data());
        }).toList(), 2);
        fork(w, 1024 + FORKS[3], 8, 0, tree, Integer.MAX_VALUE);
        int maps = (total + 7) / 8;
        byte[] bitmap = new byte[maps];
        Run place = take((maps + blockSize - 1) / blockSize).get(0);
        overflow.sort(Comparator.comparingLong(Overflow::id).thenComparing(Overflow::fork).thenComparing(Overflow::first));
        byte[] extents = new BigEndianTree(nodeSize, 10, 2, 0).write(overflow.stream().map(o -> {
            ByteArrayOutputStream data = new ByteArrayOutputStream();
            o.runs().forEach(run -> data.writeBytes(ByteBuffer.allocate(8).putInt(run.start()).putInt(run.count()).array()));
            return new BigEndianTree.Entry(ByteBuffer.allocate(12).putShort((short) 10).put((byte) o.fork()).put((byte) 0)
                    .putInt((int) o.id()).putInt(o.first()).array(), java.util.Arrays.copyOf(data.toByteArray(), 64));
        }).toList(), 2);
        fork(w, 1024 + FORKS[1], 3, 0, extents, Integer.MAX_VALUE);
        for (int i = used.nextSetBit(0); i >= 0; i = used.nextSetBit(i + 1)) {
            bitmap[i / 8] |= (byte) (0x80 >> i % 8);
        }
        System.arraycopy(bitmap, 0, image, place.start() * blockSize, maps);
        w.putLong(1024 + 112, maps).putInt(1024 + 124, place.count()).putInt(1024 + 128, place.start()).putInt(1024 + 132, place.count());
        header(w);
        System.arraycopy(image, 1024, image, image.length - 1024, 512);
        return image;
    }

    private void header(ByteBuffer w) {
        w.putShort(1024, (short) (x ? 0x4858 : 0x482B)).putShort(1026, (short) (x ? 5 : 4)).putInt(1028, flags)
                .putInt(1032, journalInfo == 0 ? 0x31302E30 : 0x4846534A).putInt(1036, journalInfo);
        for (int at = 16; at < 32; at += 4) {
            w.putInt(1024 + at, at == 24 ? 0 : (int) TIME);
        }
        w.putInt(1056, files).putInt(1060, folders.size() - 1).putInt(1064, blockSize).putInt(1068, total)
                .putInt(1072, total - used.cardinality()).putInt(1076, 0).putInt(1080, blockSize).putInt(1084, blockSize).putInt(1088, next)
                .putInt(1092, 1).putLong(1096, 1).putLong(1128, 0x0123456789ABCDEFL);
    }

    /**
     * A volume inside an HFS wrapper. Source: libblkid superblock prober for HFS (util-linux).
     *
     * @param block allocation block size of the wrapper; the volume's length is a multiple of it
     */
    public static byte[] wrapped(byte[] volume, int block) {
        int count = volume.length / block;
        int first = 8;
        byte[] all = new byte[first * 512 + (count + 4) * block + 1024];
        ByteBuffer w = ByteBuffer.wrap(all);
        w.putShort(1024, (short) 0x4244).putShort(1024 + 14, (short) 3).putShort(1024 + 18, (short) (count + 4)).putInt(1024 + 20, block)
                .putShort(1024 + 28, (short) first).put(1024 + 36, (byte) 4).put(1024 + 37, "Wrap".getBytes(StandardCharsets.US_ASCII))
                .putShort(1024 + 124, ByteBuffer.wrap(volume).getShort(1024)).putShort(1024 + 126, (short) 2)
                .putShort(1024 + 128, (short) count);
        System.arraycopy(volume, 0, all, first * 512 + 2 * block, volume.length);
        System.arraycopy(all, 1024, all, all.length - 1024, 162);
        return all;
    }
}
