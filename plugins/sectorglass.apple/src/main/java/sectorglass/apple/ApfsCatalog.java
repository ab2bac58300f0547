package sectorglass.apple;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.function.IntConsumer;

import sectorglass.disk.Extent;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;

/** The inodes and leaves of one volume's file tree. Source: Apple File System Reference, "File-System Objects", by way of apfs_raw.h. */
final class ApfsCatalog {
    private static final int FOLDER_MODE = 0x4000;
    private static final int MODE_MASK = 0xF000;

    final ApfsVolumeHeader volume;
    final LongList leaves = new LongList();
    private final ApfsTree tree;
    private final IdIndex ids = new IdIndex();
    /** Block of the leaf and number of the record in it. */
    private final LongList places = new LongList();
    private final LongList sizes = new LongList();
    private final LongList times = new LongList();
    private final BitSet folders = new BitSet();
    private final SectorRanges unread;
    private int badSums;

    ApfsCatalog(ApfsVolumeHeader volume, Progress progress) {
        this.volume = volume;
        this.tree = volume.catalog();
        tree.walk((block, id, node) -> {
            badSums += ApfsObject.sumHolds(node.w) ? 0 : 1;
            if (node.leaf()) {
                leaves.add(block);
                leaf(block, node);
            }
        }, progress);
        List<SectorRange> all = new ArrayList<>(tree.unread().toList());
        all.addAll(volume.map().unread().toList());
        unread = SectorRanges.of(all);
    }

    private void leaf(long block, ApfsNode node) {
        Window w = node.w;
        for (int i = 0; i < node.count(); i++) {
            int key = node.key(i);
            int value = node.value(i);
            if (key < 0 || value < 0 || node.keyLength(i) < 8) {
                continue;
            }
            int type = ApfsRecords.type(w, key);
            if (type == ApfsRecords.INODE && node.valueLength(i) >= ApfsRecords.INODE_BYTES) {
                ids.add(ApfsRecords.id(w, key));
                places.add(block << 16 | i);
                sizes.add(ApfsRecords.size(w, value, node.valueLength(i)));
                times.add(w.u64le(value + 24));
                folders.set(ids.size() - 1, (w.u16le(value + 80) & MODE_MASK) == FOLDER_MODE);
            } else if (type == ApfsRecords.ATTRIBUTE && ids.endsWith(ApfsRecords.id(w, key))
                    && Decmpfs.NAME.equals(ApfsRecords.attribute(w, key, node.keyLength(i)))) {
                Decmpfs header = inline(w, value, node.valueLength(i));
                if (header != null && compressed(ids.size() - 1)) {
                    sizes.set(sizes.size() - 1, header.bytes());
                }
            }
        }
    }

    private static Decmpfs inline(Window w, int value, int length) {
        boolean embedded = length >= 4 && (w.u16le(value) & 2) != 0 && w.u16le(value + 2) <= length - 4;
        return embedded ? Decmpfs.of(w.bytes(value + 4, w.u16le(value + 2))) : null;
    }

    /** Sectors of nodes and of the object map that were not read. */
    SectorRanges unread() {
        return unread;
    }

    /** Whether some node could not be found or used. */
    boolean damaged() {
        return tree.damaged() || !volume.map().whole() && volume.map().unread().isEmpty();
    }

    /** Nodes whose checksum does not hold. */
    int badSums() {
        return badSums;
    }

    /** Number of inodes. */
    int size() {
        return ids.size();
    }

    long id(int inode) {
        return ids.get(inode);
    }

    /** Length of the content; of compressed files that of the content, too. */
    long bytes(int inode) {
        return Math.max(-1, sizes.get(inode));
    }

    /** Last change of the content in nanoseconds since 1970. */
    long modified(int inode) {
        return times.get(inode);
    }

    /** The inode with an id, or -1. */
    int inode(long id) {
        return ids.find(id);
    }

    /** Whether an inode is a folder. */
    boolean folder(int inode) {
        return folders.get(inode);
    }

    /** The record of an inode, cut to its value. */
    Window record(int inode) {
        ApfsNode node = node(places.get(inode) >>> 16);
        int i = (int) (places.get(inode) & 0xFFFF);
        return node.w.sub(node.value(i), node.valueLength(i));
    }

    ApfsNode node(long block) {
        return ApfsNode.of(volume.container.header(block).window(), 0, 0);
    }

    private boolean compressed(int inode) {
        return (record(inode).u32le(68) & Decmpfs.FLAG) != 0;
    }

    /** Sees a record. */
    interface Found {
        void record(ApfsNode node, int index);
    }

    /** Visits the records of an object of one type, in the order of their keys. */
    void records(long id, int type, Found visitor) {
        long wanted = ApfsRecords.order(id, type);
        volume.catalog().find((node, i) -> {
            int key = node.key(i);
            return key < 0 || node.keyLength(i) < 8 ? 0 : Long.compareUnsigned(ApfsRecords.order(node.w, key), wanted);
        }, (block, nodeId, node) -> each(node, i -> {
            if (ApfsRecords.order(node.w, node.key(i)) == wanted) {
                visitor.record(node, i);
            }
        }));
    }

    private static void each(ApfsNode node, IntConsumer visitor) {
        for (int i = 0; i < node.count(); i++) {
            if (node.key(i) >= 0 && node.keyLength(i) >= 8 && node.value(i) >= 0) {
                visitor.accept(i);
            }
        }
    }

    /** Where the bytes of a data stream stand. */
    List<Extent> extents(long stream) {
        List<Extent> all = new ArrayList<>();
        ApfsTree sealed = volume.sealedExtents();
        if (sealed == null) {
            records(stream, ApfsRecords.FILE_EXTENT, (node, i) -> {
                if (node.keyLength(i) >= 16 && node.valueLength(i) >= 16) {
                    add(all, node.w.u64le(node.key(i) + 8), node.w, node.value(i));
                }
            });
        } else {
            sealed.find((node, i) -> node.key(i) < 0 ? 0 : Long.compareUnsigned(node.w.u64le(node.key(i)), stream),
                    (block, id, node) -> each(node, i -> {
                        if (node.keyLength(i) >= 16 && node.valueLength(i) >= 16 && node.w.u64le(node.key(i)) == stream) {
                            add(all, node.w.u64le(node.key(i) + 8), node.w, node.value(i));
                        }
                    }));
        }
        all.sort(java.util.Comparator.comparingLong(Extent::offset));
        return all;
    }

    private void add(List<Extent> all, long at, Window w, int value) {
        ApfsContainer container = volume.container;
        long length = w.u64le(value) & ApfsRecords.EXTENT_LENGTH;
        long block = w.u64le(value + 8);
        if (at < 0 || length == 0 || at > Long.MAX_VALUE - length || all.size() >= 1 << 22) {
            return;
        }
        boolean inside = block > 0 && block <= container.site.bytes() / container.blockSize - (length + container.blockSize - 1) / container.blockSize;
        all.add(block == 0 ? Extent.hole(at, length) : inside
                ? Extent.plain(at, length, container.site.firstByte() + block * container.blockSize) : Extent.unknown(at, length));
    }
}
