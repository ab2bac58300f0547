package sectorglass.apple;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.ReadOrder;
import sectorglass.disk.VolumeHeader;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/** What to read first of an HFS+ volume. Source: Apple TN1150 by way of hfs_format.h (xnu); the order is common practice, no source. */
final class HfsReadOrder implements ReadOrder {
    private final HfsLayout layout;

    HfsReadOrder(HfsLayout layout) {
        this.layout = layout;
    }

    @Override
    public List<Stage> stages(Progress progress) {
        List<SectorRange> heads = new ArrayList<>();
        int size = layout.site.image().sectorSize();
        long start = layout.place.start();
        for (long at : new long[] {start + 1024, start + layout.blocks * layout.blockSize - 1024, start + layout.place.length() - 1024}) {
            VolumeHeader header = new VolumeHeader(layout.site, at, 512);
            if (header.inside()) {
                heads.add(header.whole().sectors(size));
            }
        }
        List<SectorRange> extents = new ArrayList<>();
        boolean extentsKnown = fork(layout.fork(HfsTree.Kind.EXTENTS), extents);
        List<SectorRange> table = new ArrayList<>();
        boolean tableKnown = fork(layout.fork(HfsTree.Kind.CATALOG), table) & fork(layout.allocation(), table);
        List<SectorRange> other = new ArrayList<>();
        boolean otherKnown = fork(layout.fork(HfsTree.Kind.ATTRIBUTES), other);
        HfsJournal journal = layout.journal();
        if (journal != null) {
            other.add(journal.info().whole().sectors(size));
            VolumeHeader log = journal.header();
            otherKnown &= log != null;
            if (log != null) {
                long bytes = Math.max(512, Math.min(journal.info().window().u64be(44), layout.place.length() - (log.at() - start)));
                other.add(new sectorglass.image.ByteRange(log.whole().start(), bytes).sectors(size));
            }
        }
        return List.of(new Stage(Kind.HEADS, SectorRanges.of(heads), "The volume header and its copy at the end say where the trees lie; either is "
                        + "enough.", true),
                new Stage(Kind.FILE_TABLE, SectorRanges.of(extents), "The extents tree says where files in more than eight pieces lie, the catalog "
                        + "among them.", extentsKnown),
                new Stage(Kind.FILE_TABLE, SectorRanges.of(table), "The catalog gives name, size and place of every file, the allocation file what is "
                        + "in use.", tableKnown),
                new Stage(Kind.OTHER, SectorRanges.of(other), "Attributes say how compressed files are to be read; the journal may hold newer copies of "
                        + "the trees.", otherKnown));
    }

    /** Adds the sectors of a fork; gives whether its extents hold all of it. */
    private boolean fork(HfsFork fork, List<SectorRange> all) {
        for (int i = 0; i < fork.starts().length; i++) {
            if (fork.starts()[i] + fork.count(i) <= layout.blocks) {
                all.add(layout.sectors(fork.starts()[i], fork.count(i)));
            }
        }
        return fork.complete();
    }
}
