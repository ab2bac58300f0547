package sectorglass.apple;

import java.util.List;

import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** Judges the objects of an APFS container. Source: Apple File System Reference by way of apfsprogs (linux-apfs). */
final class ApfsChecks {
    private final ApfsContainer container;
    private final Checks all;

    ApfsChecks(ApfsContainer container, Checks all) {
        this.container = container;
        this.all = all;
    }

    void check() {
        Mark first = object(0, 0x1, 1, "container superblock");
        Window zero = container.header(0).window();
        for (long block : container.superblocks) {
            object(block, 0x1, 1, "container superblock");
        }
        for (long block : container.damaged) {
            boolean map = container.header(block).window().u16le(24) == 0xC;
            object(block, map ? 0xC : 1, map ? block : 1, map ? "checkpoint map" : "container superblock");
        }
        Checks out = all.in(container.header(0).whole());
        if (first.passed()) {
            out.check("apfs.nx.latest", container.header(0).range(16, 8), () -> {
                long newest = container.superblock().u64le(16);
                if (Long.compareUnsigned(zero.u64le(16), newest) < 0) {
                    return Outcome.failed(Long.toUnsignedString(zero.u64le(16)), Long.toUnsignedString(newest));
                }
                return container.unread.isEmpty() ? Outcome.passed() : Outcome.unread(sectors(container.unread));
            });
        }
        Window sb = container.superblock();
        if (!sb.isRead(0, container.blockSize)) {
            return;
        }
        Mark map = object(sb.u64le(0xA0), 0xB, sb.u64le(0xA0), "object map");
        if (map != null) {
            volumes(sb, map);
        }
        space(sb);
    }

    /** The sectors of these blocks that were not read. */
    private SectorRanges sectors(List<Long> blocks) {
        SectorRanges missing = SectorRanges.EMPTY;
        for (long block : blocks) {
            Window window = container.header(block).window();
            missing = missing.union(window.missing(0, window.length()));
        }
        return missing;
    }

    /** Checksum and identity of one object; null where it lies outside the volume. */
    private Mark object(long block, int type, long id, String name) {
        VolumeHeader header = container.header(block);
        if (!header.inside()) {
            return null;
        }
        Checks out = all.in(header.whole());
        Mark sum = out.check("apfs.obj.checksum", header.range(0, 8), () -> {
            long computed = ApfsObject.sum(header.window());
            return Outcome.test(computed == header.window().u64le(0), String.format("%016X", header.window().u64le(0)),
                    String.format("%016X", computed)).with("object", name);
        });
        out.check("apfs.obj.identity", header.range(8, 20), () -> Outcome.test(header.window().u64le(8) == id
                && header.window().u16le(24) == type, Long.toUnsignedString(header.window().u64le(8)) + ", type "
                + Integer.toHexString(header.window().u16le(24)), Long.toUnsignedString(id) + ", type " + Integer.toHexString(type))
                .with("object", name).because(sum));
        return sum;
    }

    private void volumes(Window sb, Mark map) {
        ByteRange ids = new ByteRange(container.header(container.newest).range(0xB8, 8).start(), 8);
        Long tree = VolumeFacts.known(container::mapTree);
        if (tree == null) {
            return;
        }
        Mark treeSum = object(tree, 0x2, tree, "root of the object map");
        int index = 0;
        for (long id : container.volumeIds()) {
            long[] found = {-1};
            ByteRange at = new ByteRange(ids.start() + 8L * index++, 8);
            all.in(container.header(container.newest).whole()).check("apfs.vol.reachable", at, () -> {
                found[0] = container.resolve(tree, id, sb.u64le(16));
                VolumeHeader header = container.header(found[0]);
                boolean there = header.inside() && header.window().matches(32, "APSB");
                return Outcome.test(there, "id " + id, found[0] < 0 ? "an entry in the object map" : "a volume in block " + found[0])
                        .because(treeSum != null && treeSum.failed() ? treeSum : map);
            });
            if (found[0] > 0) {
                object(found[0], 0xD, id, "volume superblock");
            }
        }
    }

    /** Free blocks of the space manager equal the sum over its chunks. */
    private void space(Window sb) {
        Long block = VolumeFacts.known(() -> container.ephemeral.get(sb.u64le(0x98)));
        if (block == null || !container.header(block).inside()) {
            return;
        }
        Mark sum = object(block, 0x5, sb.u64le(0x98), "space manager");
        VolumeHeader header = container.header(block);
        all.in(header.whole()).check("apfs.space.free-sum", header.range(0x48 + 0x0, 8), () -> {
            Window w = header.window();
            long infos = w.u32le(0x40);
            long table = w.u32le(0x50);
            if (w.u32le(0x44) != 0 || infos * 8 + table > container.blockSize) {
                return null;
            }
            long free = 0;
            for (int i = 0; i < infos; i++) {
                VolumeHeader info = container.header(w.u64le((int) table + 8 * i));
                if (!info.inside()) {
                    return Outcome.failed("chunk information in block " + w.u64le((int) table + 8 * i), "inside the volume").because(sum);
                }
                Window chunks = info.window();
                long entries = Math.min(chunks.u32le(0x24), (container.blockSize - 0x28) / 32);
                for (int k = 0; k < entries; k++) {
                    free += chunks.u32le(0x28 + 32 * k + 20);
                }
            }
            return Outcome.test(free == w.u64le(0x48), w.u64le(0x48), free).because(sum);
        });
    }
}
