package sectorglass.apple;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Allocation;
import sectorglass.disk.FileTree;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/** Used and free blocks by the allocation file, owners by the extents of all forks. Source: Apple TN1150 by way of hfs_format.h (xnu). */
final class HfsAllocation implements Allocation {
    private static final int MOST_OWNERS = 4096;

    private final HfsLayout layout;
    private final HfsFiles files;
    private SectorRanges used;
    private SectorRanges free;
    private SectorRanges unknown;
    private HfsClaims claims;

    /** @param files the files, or null where the catalog is of no use */
    HfsAllocation(HfsLayout layout, HfsFiles files) {
        this.layout = layout;
        this.files = files;
    }

    @Override
    public int clusterBytes() {
        return (int) layout.blockSize;
    }

    /** Blocks that follow each other with the same state. */
    private static final class Runs {
        private final HfsLayout layout;
        private final SectorRanges.Builder builder = new SectorRanges.Builder();
        private long first = -1;
        private long end;

        Runs(HfsLayout layout) {
            this.layout = layout;
        }

        void add(long block, long count) {
            if (first >= 0 && block != end) {
                close();
            }
            first = first < 0 ? block : first;
            end = block + count;
        }

        private void close() {
            if (first >= 0) {
                SectorRange sectors = layout.sectors(first, end - first);
                builder.add(sectors.first(), sectors.count());
                first = -1;
            }
        }

        SectorRanges build() {
            close();
            return builder.build();
        }
    }

    private synchronized void read() {
        if (used != null) {
            return;
        }
        Runs taken = new Runs(layout);
        Runs empty = new Runs(layout);
        HfsBitmap bitmap = new HfsBitmap(layout);
        List<long[]> gaps = bitmap.read((block, bytes, bits, where) -> {
            for (int i = 0; i < bits; i++) {
                int value = bytes[i >> 3];
                if ((i & 7) == 0 && bits - i >= 8 && (value == 0 || value == -1)) {
                    (value == 0 ? empty : taken).add(block + i, 8);
                    i += 7;
                } else {
                    ((value & 0x80 >> (i & 7)) == 0 ? empty : taken).add(block + i, 1);
                }
            }
        }, new ArrayList<>(), Progress.NONE);
        Runs doubtful = new Runs(layout);
        gaps.forEach(gap -> doubtful.add(gap[0], gap[1]));
        SectorRanges all = taken.build();
        // a sector that holds blocks in use and free ones at once, where blocks are smaller than sectors, is in use
        free = empty.build().minus(all);
        used = all;
        unknown = doubtful.build().minus(all);
    }

    @Override
    public SectorRanges used() {
        read();
        return used;
    }

    @Override
    public SectorRanges free() {
        read();
        return free.minus(unknown);
    }

    @Override
    public SectorRanges unknown() {
        read();
        return unknown;
    }

    private synchronized HfsClaims claims(Progress progress) {
        if (claims == null) {
            HfsClaims made = new HfsClaims(layout);
            made.system();
            made.files(progress);
            made.sort();
            claims = made;
        }
        return claims;
    }

    @Override
    public SectorRanges metadata() {
        HfsClaims system = new HfsClaims(layout);
        system.system();
        system.sort();
        return system.metadata();
    }

    @Override
    public List<Owner> owners(SectorRange range, Progress progress) {
        int sector = layout.site.image().sectorSize();
        long from = range.first() * sector - layout.firstByte();
        long to = range.end() * sector - layout.firstByte();
        if (to <= 0) {
            return List.of();
        }
        HfsClaims all = claims(progress);
        FileTree tree = files == null ? null : files.tree(progress);
        List<Owner> owners = new ArrayList<>();
        all.touching(Math.max(0, from) / layout.blockSize, (to + layout.blockSize - 1) / layout.blockSize, place -> {
            SectorRange sectors = layout.sectors(all.start(place), all.count(place));
            long first = Math.max(range.first(), sectors.first());
            long end = Math.min(range.end(), sectors.end());
            if (end > first && owners.size() < MOST_OWNERS) {
                owners.add(owner(all, place, tree, new SectorRange(first, end - first), (first - sectors.first()) * sector));
            }
        });
        return owners;
    }

    private Owner owner(HfsClaims all, int place, FileTree tree, SectorRange sectors, long in) {
        long offset = all.offset(place) * layout.blockSize + in;
        List<Integer> entries = tree == null || all.id(place) < 16 ? List.of() : tree.withNumber(all.id(place));
        int entry = entries.isEmpty() ? -1 : entries.get(0);
        String stream = all.kind(place) == 0xFF ? HfsFiles.RESOURCE : "";
        String name = entry < 0 ? all.owner(place) : all.kind(place) == 0 ? tree.path(entry)
                : (all.kind(place) == HfsClaims.ATTRIBUTE ? "attribute of " : "resource fork of ") + tree.path(entry);
        return new Owner(entry, stream, offset, sectors, name);
    }
}
