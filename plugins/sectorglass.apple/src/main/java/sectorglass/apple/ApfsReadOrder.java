package sectorglass.apple;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.ReadOrder;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;

/** What to read first of an APFS container. Source: Apple File System Reference; the order is common practice, no source. */
final class ApfsReadOrder implements ReadOrder {
    private final ApfsContainer container;
    private final ApfsAllocation allocation;

    ApfsReadOrder(ApfsContainer container, ApfsAllocation allocation) {
        this.container = container;
        this.allocation = allocation;
    }

    @Override
    public List<Stage> stages(Progress progress) {
        List<Stage> stages = new ArrayList<>();
        stages.add(new Stage(Kind.HEADS, allocation.heads(), "Block 0 and the checkpoint descriptors say which transaction is the newest and where the "
                + "object map lies.", container.unread.isEmpty()));
        ApfsContainer.Volumes volumes = container.volumes();
        ApfsSpace space = ApfsSpace.of(container);
        stages.add(new Stage(Kind.FILE_TABLE, allocation.space(), "The space manager with its bitmaps says what is in use; the container's object map "
                + "leads to the volumes.", space != null && space.unread().isEmpty() && volumes.unread().isEmpty()));
        SectorRanges trees = SectorRanges.EMPTY;
        boolean whole = volumes.unread().isEmpty() && volumes.lost() == 0;
        for (ApfsVolumeHeader volume : volumes.found()) {
            progress.checkCancelled();
            trees = trees.union(allocation.mapped(volume));
            whole &= volume.map().whole();
        }
        stages.add(new Stage(Kind.FILE_TABLE, trees, "Superblocks and object maps of the volumes, and every node of their file trees: name, size and place "
                + "of every file.", whole));
        return stages;
    }
}
