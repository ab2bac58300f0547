package sectorglass.apple;

import sectorglass.disk.Level;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** The catalog B-tree of HFS+. Source: Apple TN1150 by way of hfs_format.h (xnu). */
final class HfsCatalog {
    final VolumeSite site;
    final HfsPlus.Place place;
    final HfsFork fork;
    final int nodeSize;
    final Window header;

    private HfsCatalog(VolumeSite site, HfsPlus.Place place, HfsFork fork, int nodeSize, Window header) {
        this.site = site;
        this.place = place;
        this.fork = fork;
        this.nodeSize = nodeSize;
        this.header = header;
    }

    /** The catalog, or null where its header node was not read or makes no sense. */
    static HfsCatalog open(VolumeSite site, HfsPlus.Place place, Window volumeHeader) {
        return VolumeFacts.known(() -> {
            HfsFork fork = HfsFork.read(volumeHeader, 272, volumeHeader.u32be(40));
            Window start = fork.window(site, place.start(), 0, 512);
            int size = start.u16be(32);
            return VolumeFacts.power(size, 512, 32768) && fork.bytes() >= size
                    ? new HfsCatalog(site, place, fork, size, fork.window(site, place.start(), 0, size)) : null;
        });
    }

    /** Number of nodes that the fork has room for. */
    long nodes() {
        return fork.held(site) / nodeSize;
    }

    /** A node. */
    Window node(long number) {
        return fork.window(site, place.start(), number * nodeSize, nodeSize);
    }

    /** Image bytes of a node. */
    ByteRange range(long number) {
        return node(number).range();
    }

    /** Offsets of records, or null where they are not legal. */
    static int[] records(Window node) {
        int size = node.length();
        int count = node.u16be(10);
        if (14 + 2 * (count + 1) > size) {
            return null;
        }
        int[] offsets = new int[count + 1];
        for (int i = 0; i <= count; i++) {
            offsets[i] = node.u16be(size - 2 * (i + 1));
            if (offsets[i] < 14 || i == 0 && offsets[i] != 14 || i > 0 && offsets[i] <= offsets[i - 1]
                    || offsets[i] > size - 2 * (count + 1)) {
                return null;
            }
        }
        return offsets;
    }

    void check(Level level, Checks all, Window volumeHeader) {
        ByteRange where = range(0);
        Mark head = all.in(where).check("hfs.btree.node", where, () -> {
            boolean fits = header.u8(8) == 1 && records(header) != null && header.u32be(36) * nodeSize == fork.bytes();
            return Outcome.test(fits, "kind " + header.u8(8) + ", " + header.u32be(36) + " nodes",
                    "kind 1, " + fork.bytes() / nodeSize + " nodes");
        });
        if (head.passed() && level == Level.FULL) {
            new HfsLeaves(this, all, volumeHeader).check();
        }
    }
}
