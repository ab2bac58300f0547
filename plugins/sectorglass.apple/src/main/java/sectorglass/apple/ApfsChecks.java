package sectorglass.apple;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Level;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
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

    void check(Level level, Progress progress) {
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
                long newest = container.header(container.latest).window().u64le(16);
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
        ApfsSpace space = ApfsSpace.of(container);
        if (space != null) {
            new ApfsSpaceChecks(container, space, all).check(level, progress, object(space.header.at() / container.blockSize, 0x5, sb.u64le(0x98),
                    "space manager"));
        }
        if (level == Level.FULL) {
            trees(progress);
        }
    }

    private void trees(Progress progress) {
        ApfsTreeChecks checks = new ApfsTreeChecks(container, all);
        checks.containerMap(progress);
        List<ApfsCatalog> catalogs = new ArrayList<>();
        ApfsContainer.Volumes volumes = container.volumes();
        SectorRanges unread = volumes.unread().union(ApfsSpace.lacking(container));
        boolean whole = volumes.lost() == 0 && volumes.unread().isEmpty();
        for (ApfsVolumeHeader volume : volumes.found()) {
            object(volume.mapBlock(), 0xB, volume.mapBlock(), "object map of a volume");
            new ApfsVolumeChecks(container, volume, all).check(checks, progress);
            ApfsCatalog catalog = new ApfsCatalog(volume, progress);
            catalogs.add(catalog);
            unread = unread.union(catalog.unread());
            whole &= !catalog.damaged();
        }
        checks.finish();
        ApfsVolumeChecks.marked(container, new ApfsClaims(container, catalogs, progress), unread, whole, all);
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
}
