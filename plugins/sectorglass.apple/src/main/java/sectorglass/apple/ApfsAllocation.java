package sectorglass.apple;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Allocation;
import sectorglass.disk.FileTree;
import sectorglass.disk.VolumeFacts;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/** Used and free blocks by the space manager's bitmaps, owners by the extents of all volumes. Source: Apple File System Reference. */
final class ApfsAllocation implements Allocation {
    private static final int MOST_OWNERS = 4096;

    private final ApfsContainer container;
    private final ApfsFiles files;
    private SectorRanges used;
    private SectorRanges free;
    private SectorRanges unknown;
    private ApfsClaims claims;

    ApfsAllocation(ApfsContainer container, ApfsFiles files) {
        this.container = container;
        this.files = files;
    }

    @Override
    public int clusterBytes() {
        return container.blockSize;
    }

    private synchronized void read() {
        if (used != null) {
            return;
        }
        List<SectorRange> taken = new ArrayList<>();
        List<SectorRange> empty = new ArrayList<>();
        ApfsSpace space = ApfsSpace.of(container);
        for (ApfsSpace.Chunk chunk : space == null ? List.<ApfsSpace.Chunk>of() : space.chunks()) {
            space.bits(chunk, (block, bytes, count) -> {
                for (int i = 0; i < count;) {
                    boolean bit = bit(bytes, i);
                    int from = i;
                    while (i < count && bit(bytes, i) == bit) {
                        i++;
                    }
                    (bit ? taken : empty).add(container.sectors(block + from, i - from));
                }
            });
        }
        used = SectorRanges.of(taken);
        free = SectorRanges.of(empty).minus(used);
        unknown = SectorRanges.of(container.sectors(0, container.blocks())).minus(used).minus(free);
    }

    private static boolean bit(byte[] bytes, int i) {
        return (bytes[i >> 3] & 1 << (i & 7)) != 0;
    }

    @Override
    public SectorRanges used() {
        read();
        return used;
    }

    @Override
    public SectorRanges free() {
        read();
        return free;
    }

    @Override
    public SectorRanges unknown() {
        read();
        return unknown;
    }

    @Override
    public SectorRanges metadata() {
        SectorRanges all = heads().union(space());
        for (ApfsVolumeHeader volume : container.volumes().found()) {
            all = all.union(mapped(volume));
        }
        return all;
    }

    /** Block 0 and the checkpoint descriptor area. */
    SectorRanges heads() {
        List<SectorRange> all = new ArrayList<>();
        all.add(container.sectors(0, 1));
        area(all, 0x70, 0x68);
        return SectorRanges.of(all);
    }

    /** The checkpoint data area, the space manager's pools, tables and bitmaps. */
    SectorRanges space() {
        List<SectorRange> all = new ArrayList<>();
        area(all, 0x78, 0x6C);
        ApfsSpace space = ApfsSpace.of(container);
        if (space != null) {
            for (long[] pool : space.pools() == null ? new long[0][] : space.pools()) {
                add(all, pool[0], pool[1]);
            }
            space.tables.forEach(block -> add(all, block, 1));
            space.infos.forEach(block -> add(all, block, 1));
            space.chunks().forEach(chunk -> add(all, chunk.bitmap(), chunk.bitmap() == 0 ? 0 : 1));
        }
        VolumeFacts.known(() -> {
            long map = container.superblock().u64le(0xA0);
            add(all, map, 1);
            add(all, container.mapTree(), 1);
            return true;
        });
        return SectorRanges.of(all);
    }

    private void area(List<SectorRange> all, int base, int count) {
        VolumeFacts.known(() -> {
            add(all, container.superblock().u64le(base), container.superblock().u32le(count) & 0x7FFFFFFF);
            return true;
        });
    }

    private void add(List<SectorRange> all, long block, long count) {
        if (block >= 0 && count > 0 && block <= container.blocks() - count) {
            all.add(container.sectors(block, count));
        }
    }

    /** A volume's superblock, its object map and every object that the map names. */
    SectorRanges mapped(ApfsVolumeHeader volume) {
        List<SectorRange> all = new ArrayList<>();
        add(all, volume.block, 1);
        VolumeFacts.known(() -> {
            add(all, volume.mapBlock(), 1);
            ApfsObjectMap map = volume.map();
            for (int i = 0; i < map.size(); i++) {
                add(all, map.blockAt(i), 1);
            }
            return true;
        });
        return SectorRanges.of(all).union(VolumeFacts.known(() -> ApfsClaims.sectors(container, volume.map().nodes())));
    }

    private synchronized ApfsClaims claims(Progress progress) {
        if (claims == null) {
            claims = new ApfsClaims(container, files.catalogs(progress), progress);
        }
        return claims;
    }

    @Override
    public List<Owner> owners(SectorRange range, Progress progress) {
        FileTree tree = files.tree(progress);
        ApfsClaims all = claims(progress);
        int sector = container.site.image().sectorSize();
        long from = Math.max(0, range.first() * sector - container.site.firstByte());
        long to = range.end() * sector - container.site.firstByte();
        List<Owner> owners = new ArrayList<>();
        if (to <= 0) {
            return owners;
        }
        all.touching(from / container.blockSize, (to + container.blockSize - 1) / container.blockSize, place -> {
            if (all.start(place) > container.blocks() - all.count(place) || owners.size() >= MOST_OWNERS) {
                return;
            }
            SectorRange sectors = container.sectors(all.start(place), all.count(place));
            long first = Math.max(range.first(), sectors.first());
            long end = Math.min(range.end(), sectors.end());
            if (end > first) {
                int entry = tree.withNumber(all.stream(place)).stream().filter(e -> files.volume(e) == all.volume(place)).findFirst().orElse(-1);
                owners.add(new Owner(entry, "", all.offset(place) + (first - sectors.first()) * sector, new SectorRange(first, end - first),
                        entry < 0 ? "data stream " + all.stream(place) : tree.path(entry)));
            }
        });
        metadata().intersect(range).forEach(part -> owners.add(new Owner(-1, "", 0, part, "file system metadata")));
        return owners;
    }
}
