package sectorglass.ext;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Allocation;
import sectorglass.disk.FileTree;
import sectorglass.disk.ReadOrder;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;

/** Used and free blocks by the bitmaps, owners by the inodes, and what to read first. */
final class ExtAllocation implements Allocation, ReadOrder {
    private static final int MOST_OWNERS = 4096;

    private final Layout layout;
    private final Groups groups;
    private final ExtFiles files;
    private SectorRanges used;
    private SectorRanges free;
    private SectorRanges unknown;

    ExtAllocation(Layout layout, Groups groups, ExtFiles files) {
        this.layout = layout;
        this.groups = groups;
        this.files = files;
    }

    private SectorRange sectors(long block, long count) {
        return layout.blocks(block, count).sectors(layout.site.image().sectorSize());
    }

    private static final class Run {
        final SectorRanges.Builder builder = new SectorRanges.Builder();
        long first = -1;
        long end;
    }

    private synchronized void read() {
        if (used != null) {
            return;
        }
        Run[] runs = {new Run(), new Run(), new Run()};
        int ratio = layout.sb.clusterRatio();
        for (int g = 0; g < layout.groups; g++) {
            Group group = groups.get(g);
            long clusters = (layout.length(g) + ratio - 1) / ratio;
            if (group == null || group.copied() && layout.sb.descriptorSums() || !layout.inVolume(group.blockBitmap())) {
                add(runs[2], layout.first(g), layout.length(g));
            } else if (group.blocksUninitialised(layout.sb)) {
                uninitialised(g, runs);
            } else {
                bits(g, layout.read(group.blockBitmap()), clusters, ratio, runs);
            }
        }
        if (layout.sb.firstDataBlock() > 0) {
            used = SectorRanges.of(sectors(0, layout.sb.firstDataBlock())).union(close(runs[0]));
        } else {
            used = close(runs[0]);
        }
        free = close(runs[1]);
        unknown = close(runs[2]);
    }

    private void bits(int g, Window w, long clusters, int ratio, Run[] runs) {
        for (int i = 0; i < clusters; i++) {
            int kind = !w.isRead(i >> 3, 1) ? 2 : (w.u8(i >> 3) & 1 << (i & 7)) != 0 ? 0 : 1;
            long block = layout.first(g) + (long) i * ratio;
            add(runs[kind], block, Math.min(ratio, layout.first(g) + layout.length(g) - block));
        }
    }

    private void uninitialised(int g, Run[] runs) {
        SectorRanges taken = metadataOf(g);
        SectorRange all = sectors(layout.first(g), layout.length(g));
        long per = layout.blockSize / layout.site.image().sectorSize();
        for (long block = layout.first(g); block < layout.first(g) + layout.length(g); block++) {
            boolean system = taken.intersects(new SectorRange(all.first() + (block - layout.first(g)) * Math.max(1, per), 1));
            add(runs[system ? 0 : 1], block, 1);
        }
    }

    private void add(Run run, long block, long count) {
        if (run.first >= 0 && block != run.end) {
            SectorRange sectors = sectors(run.first, run.end - run.first);
            run.builder.add(sectors.first(), sectors.count());
            run.first = -1;
        }
        run.first = run.first < 0 ? block : run.first;
        run.end = block + count;
    }

    private SectorRanges close(Run run) {
        if (run.first >= 0) {
            SectorRange sectors = sectors(run.first, run.end - run.first);
            run.builder.add(sectors.first(), sectors.count());
        }
        return run.builder.build();
    }

    @Override
    public int clusterBytes() {
        return layout.blockSize * layout.sb.clusterRatio();
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

    /** Metadata of all groups that lie in the blocks of one. */
    private SectorRanges metadataOf(int g) {
        return metadata().intersect(sectors(layout.first(g), layout.length(g)));
    }

    private SectorRanges metadata;

    @Override
    public synchronized SectorRanges metadata() {
        if (metadata == null) {
            List<SectorRange> all = new ArrayList<>();
            all.add(new ByteRange(layout.site.firstByte() + 1024, Superblock.LENGTH).sectors(layout.site.image().sectorSize()));
            for (int g = 0; g < layout.groups; g++) {
                heads(g, all);
                tables(g, all, true);
            }
            if (layout.mmpBlock() >= 0) {
                all.add(sectors(layout.mmpBlock(), 1));
            }
            all.addAll(journal());
            metadata = SectorRanges.of(all);
        }
        return metadata;
    }

    private void heads(int g, List<SectorRange> all) {
        if (layout.headBlocks(g) > 0) {
            all.add(sectors(layout.first(g), layout.headBlocks(g)));
        }
    }

    private void tables(int g, List<SectorRange> all, boolean everything) {
        Group group = groups.get(g);
        if (group == null) {
            return;
        }
        for (long block : new long[] {group.blockBitmap(), group.inodeBitmap()}) {
            if (layout.inVolume(block)) {
                all.add(sectors(block, 1));
            }
        }
        if (groups.tableInside(group) && (everything || !group.inodesUninitialised(layout.sb))) {
            long inodes = layout.sb.inodesPerGroup();
            long count = everything || !layout.sb.descriptorSums() || group.unused() > inodes || group.copied() ? inodes
                    : inodes - group.unused();
            long blocks = (count * layout.sb.inodeSize() + layout.blockSize - 1) / layout.blockSize;
            all.add(sectors(group.inodeTable(), Math.max(1, blocks)));
        }
    }

    private List<SectorRange> journal() {
        List<SectorRange> all = new ArrayList<>();
        Window sb = layout.site.window(1024, Superblock.LENGTH);
        long number = layout.sb.hasCompat(Features.HAS_JOURNAL) && sb.isRead(0, 512) ? sb.u32le(0xE0) : 0;
        long at = groups.inode(number);
        Window w = at < 0 ? null : layout.site.window(at, layout.sb.inodeSize());
        if (w != null && w.isRead(0, w.length())) {
            BlockMap map = Maps.of(layout, new Inode(number, w));
            map.runs.forEach(run -> all.add(sectors(run.physical(), run.count())));
            map.nodes.forEach(node -> all.add(sectors(node, 1)));
        }
        return all;
    }

    @Override
    public List<Owner> owners(SectorRange range, Progress progress) {
        List<Owner> found = new ArrayList<>();
        SectorRanges system = metadata().intersect(SectorRanges.of(range));
        for (SectorRange part : system) {
            if (found.size() < MOST_OWNERS) {
                found.add(new Owner(-1, "", 0, part, "file system metadata"));
            }
        }
        FileTree tree = files.tree(progress);
        int sector = layout.site.image().sectorSize();
        long steps = 0;
        for (int id = 0; id < tree.size() && found.size() < MOST_OWNERS && steps <= 2 * layout.mostSteps(); id++) {
            progress.checkCancelled();
            long at = tree.number(id) > 0 ? groups.inode(tree.number(id)) : -1;
            Window w = at < 0 ? null : layout.site.window(at, layout.sb.inodeSize());
            if (w == null || !w.isRead(0, w.length())) {
                continue;
            }
            BlockMap map = Maps.of(layout, new Inode(tree.number(id), w));
            steps += map.nodes.size() + map.runs.size();
            for (BlockMap.Run run : map.runs) {
                SectorRange place = sectors(run.physical(), run.count());
                long first = Math.max(place.first(), range.first());
                long end = Math.min(place.end(), range.end());
                if (end > first) {
                    found.add(new Owner(id, "", run.logical() * layout.blockSize + (first - place.first()) * sector,
                            new SectorRange(first, end - first), tree.path(id)));
                }
            }
            for (long node : map.nodes) {
                if (sectors(node, 1).overlaps(range)) {
                    found.add(new Owner(id, "", 0, sectors(node, 1), "block map of " + tree.path(id)));
                }
            }
        }
        found.sort(java.util.Comparator.comparing(owner -> owner.sectors().first()));
        return found;
    }

    @Override
    public List<Stage> stages(Progress progress) {
        List<SectorRange> heads = new ArrayList<>();
        List<SectorRange> tables = new ArrayList<>();
        boolean known = true;
        heads.add(new ByteRange(layout.site.firstByte() + 1024, Superblock.LENGTH).sectors(layout.site.image().sectorSize()));
        for (int g = 0; g < layout.groups; g++) {
            heads(g, heads);
            tables(g, tables, false);
            known &= groups.get(g) != null;
        }
        List<SectorRange> folders = new ArrayList<>();
        FileTree tree = files.tree(progress);
        long steps = 0;
        for (int id = 0; id < tree.size() && steps <= 2 * layout.mostSteps(); id++) {
            progress.checkCancelled();
            long at = tree.folder(id) && tree.number(id) > 0 ? groups.inode(tree.number(id)) : -1;
            Window w = at < 0 ? null : layout.site.window(at, layout.sb.inodeSize());
            if (w != null && w.isRead(0, w.length())) {
                BlockMap map = Maps.of(layout, new Inode(tree.number(id), w));
                steps += map.nodes.size() + map.runs.size();
                map.runs.forEach(run -> folders.add(sectors(run.physical(), run.count())));
                map.nodes.forEach(node -> folders.add(sectors(node, 1)));
            }
        }
        return List.of(new Stage(Kind.HEADS, SectorRanges.of(heads), "superblocks and group descriptors say where everything lies", true),
                new Stage(Kind.FILE_TABLE, SectorRanges.of(tables), "inodes give size and place of every file, bitmaps what is in use", known),
                new Stage(Kind.FOLDERS, SectorRanges.of(folders), "directories give the names", tree.unreadMetadata().isEmpty()),
                new Stage(Kind.OTHER, SectorRanges.of(journal()), "the journal may hold newer copies of metadata", known));
    }
}
