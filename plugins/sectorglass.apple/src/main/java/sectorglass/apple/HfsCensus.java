package sectorglass.apple;

import java.util.List;

import sectorglass.disk.VolumeHeader;
import sectorglass.image.ByteRange;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Tally;

/**
 * Counts what the leaves of the catalog hold and compares it with the volume header, with the folders and with the thread records. Source:
 * Apple TN1150, "Catalog File", by way of hfs_format.h (xnu).
 */
final class HfsCensus implements HfsTree.Leaf {
    static final int FOLDER = 1;
    static final int FILE = 2;
    static final int FOLDER_THREAD = 3;
    static final int FILE_THREAD = 4;
    static final int FOLDER_BYTES = 88;
    static final int FILE_BYTES = 248;
    /** Flag of a file that has a thread record. */
    private static final int THREAD_EXISTS = 2;

    private final HfsLayout layout;
    private final Checks all;
    private final HfsClaims claims;
    private final Tally forks;
    private final LongList ids = new LongList();
    /** Parent and name of each entry of {@link #ids} in one number; 0 where no thread is needed. */
    private final LongList names = new LongList();
    private final LongList places = new LongList();
    private final LongList threads = new LongList();
    private final LongList threadNames = new LongList();
    private final LongList folders = new LongList();
    private final LongList valences = new LongList();
    private final LongList folderPlaces = new LongList();
    private final LongList parents = new LongList();
    private long files;
    private long highest;

    HfsCensus(HfsLayout layout, Checks all, HfsClaims claims) {
        this.layout = layout;
        this.all = all;
        this.claims = claims;
        this.forks = new Tally(all, layout.range(0, 1));
    }

    /** The type of a record whose fields all stand before its end, or 0. */
    static int type(Window w, int data, int end) {
        int type = data < 0 ? 0 : w.u16be(data);
        int needed = switch (type) {
            case FOLDER -> FOLDER_BYTES;
            case FILE -> FILE_BYTES;
            case FOLDER_THREAD, FILE_THREAD -> 10;
            default -> Integer.MAX_VALUE;
        };
        return needed <= end - data ? type : 0;
    }

    @Override
    public void node(long number, Window w, int[] offsets) {
        for (int i = 0; i + 1 < offsets.length; i++) {
            int key = offsets[i];
            int data = HfsKeys.record(w, key, offsets[i + 1]);
            int type = type(w, data, offsets[i + 1]);
            if (type == FOLDER_THREAD || type == FILE_THREAD) {
                int units = w.u16be(data + 8);
                threads.add(w.u32be(key + 2));
                threadNames.add(data + 10 + units * 2 <= offsets[i + 1] ? hash(w.u32be(data + 4), w.raw(data + 10, units * 2)) : 0);
            } else if (type != 0) {
                item(w, key, data, type);
            }
        }
    }

    private void item(Window w, int key, int data, int type) {
        long parent = w.u32be(key + 2);
        long id = w.u32be(data + 8);
        boolean thread = type == FOLDER || (w.u16be(data + 2) & THREAD_EXISTS) != 0;
        highest = Math.max(highest, id);
        parents.add(parent);
        ids.add(id);
        names.add(thread ? hash(parent, w.raw(key + 8, w.u16be(key + 6) * 2)) : 0);
        places.add(w.address(data));
        if (type == FOLDER) {
            folders.add(id);
            valences.add(w.u32be(data + 4));
            folderPlaces.add(w.address(data));
        } else {
            files++;
            fork(w, data, 88, id, 0);
            fork(w, data, 168, id, 0xFF);
        }
    }

    /** The extents of a fork lie in the volume, add up to its blocks and hold its bytes. */
    private void fork(Window w, int data, int at, long id, int kind) {
        HfsFork fork = layout.overflow().fork(w, data + at, id, kind);
        claims.add(fork, id, kind);
        long stored = w.u32be(data + at + 12);
        ByteRange where = w.range(data + at, HfsFork.LENGTH);
        forks.check("hfs.fork.extents", w.range(data, FILE_BYTES), where, () -> {
            String owner = (kind == 0 ? "file " : "resource fork of file ") + id + ": ";
            for (int i = 0; i < fork.starts().length; i++) {
                if (fork.starts()[i] + fork.count(i) > layout.blocks) {
                    return Outcome.failed(owner + "blocks to " + (fork.starts()[i] + fork.count(i)), "at most " + layout.blocks);
                }
            }
            if (fork.blocks() < stored && !layout.overflow().whole()) {
                return layout.overflow().unread().isEmpty() ? Outcome.undecided("the extents tree is damaged")
                        : Outcome.unread(layout.overflow().unread());
            }
            return fork.blocks() != stored ? layout.settled(false, owner + fork.blocks() + " blocks in extents", stored + " blocks")
                    : layout.settled(fork.bytes() <= stored * layout.blockSize, owner + fork.bytes() + " bytes", "at most "
                            + stored * layout.blockSize);
        });
    }

    /** Parent and name in one number that is not 0 (FNV-1a, 64 bits). */
    private static long hash(long parent, byte[] name) {
        long hash = 0xCBF29CE484222325L ^ parent;
        hash *= 0x100000001B3L;
        for (byte b : name) {
            hash = (hash ^ b & 0xFF) * 0x100000001B3L;
        }
        return hash == 0 ? 1 : hash;
    }

    /** Says of the forks what was gathered. */
    void forks(Mark fault) {
        forks.finish(List.of("hfs.fork.extents"), fault);
    }

    /** Compares the counts; only where every leaf was read and its records were legal. */
    void check() {
        VolumeHeader vh = new VolumeHeader(layout.site, layout.place.start() + layout.place.header(), 512);
        Checks out = all.in(vh.whole());
        long folderCount = Math.max(0, folders.size() - 1);
        out.check("hfs.vh.counts", vh.range(32, 8), () -> layout.settled(layout.header.u32be(32) == files
                && layout.header.u32be(36) == folderCount, layout.header.u32be(32) + " files, " + layout.header.u32be(36) + " folders",
                files + " files, " + folderCount + " folders"));
        out.check("hfs.catalog.next-id", vh.range(64, 4), () -> (layout.header.u32be(4) & 0x1000) != 0 ? null
                : layout.settled(layout.header.u32be(64) > highest, layout.header.u32be(64), "more than " + highest));
        relations();
    }

    /** Each folder counts its children; each folder, and each file that says so, has a thread record that leads to it. */
    private void relations() {
        Tally tally = new Tally(all, layout.range(0, 1));
        long[] sorted = parents.sorted();
        for (int i = 0; i < folders.size(); i++) {
            long id = folders.get(i);
            long counted = above(sorted, id) - above(sorted, id - 1);
            long stored = valences.get(i);
            ByteRange where = new ByteRange(folderPlaces.get(i), FOLDER_BYTES);
            tally.check("hfs.catalog.valence", where, new ByteRange(where.start() + 4, 4),
                    () -> layout.settled(stored == counted, stored, counted).with("folder", id));
        }
        for (int i = 0; i < ids.size(); i++) {
            long id = ids.get(i);
            long name = names.get(i);
            ByteRange where = new ByteRange(places.get(i), 12);
            tally.check("hfs.catalog.thread", where, where, () -> {
                int thread = name == 0 ? -1 : threads.find(id);
                return name == 0 ? null : layout.settled(thread >= 0 && threadNames.get(thread) == name,
                        thread < 0 ? "no thread record" : "a thread record that leads elsewhere", "one with its folder and name").with("folder", id);
            });
        }
        tally.finish(List.of("hfs.catalog.valence", "hfs.catalog.thread"), null);
    }

    /** How many numbers are not above the given one. */
    private static int above(long[] sorted, long value) {
        int low = 0;
        int high = sorted.length;
        while (low < high) {
            int middle = low + high >>> 1;
            if (sorted[middle] <= value) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }
}
