package sectorglass.make.fat;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;

import sectorglass.make.DataFile;
import sectorglass.make.Folder;
import sectorglass.make.Medium;
import sectorglass.make.Node;
import sectorglass.make.SplitMix64;
import sectorglass.make.VolumeKind;
import sectorglass.make.write.ClusterRun;
import sectorglass.make.write.ClusterSpace;
import sectorglass.make.write.FileStream;
import sectorglass.make.write.VolumeTarget;

/** Writes a FAT volume, folder by folder in breadth, clusters in rising order. */
public final class FatWriter {

    /** A folder whose clusters are taken and whose slots are still to be written. */
    private record Open(Folder folder, String path, List<ClusterRun> runs, long parent) {
        long first() {
            return runs.isEmpty() ? 0 : runs.get(0).first();
        }
    }

    private final VolumeTarget target;
    private final Medium medium;
    private final FatLayout layout;
    private final FatTable table;
    private final ClusterSpace space;
    private final FileStream stream;
    private final SplitMix64 gaps;
    private final List<ClusterRun> deleted = new ArrayList<>();
    private final Deque<Open> open = new ArrayDeque<>();

    /** For one volume. */
    public FatWriter(VolumeTarget target) throws IOException {
        this.target = target;
        medium = target.medium();
        layout = new FatLayout(target);
        table = new FatTable(medium, target.volume().kind(), layout, FatBoot.MEDIA);
        space = new ClusterSpace(2, layout.clusterEnd());
        stream = new FileStream(medium, layout.heapByte(), 2, target.volume().clusterBytes(), target.seed());
        gaps = SplitMix64.of(target.seed(), "gaps");
    }

    /** Writes everything. */
    public void write() throws IOException {
        Folder root = target.volume().root();
        boolean wide = target.volume().kind() == VolumeKind.FAT32;
        int slots = FatDirectory.slots(root.children(), hasLabel() ? 1 : 0);
        if (!wide && slots > FatLayout.ROOT_ENTRIES) {
            throw new IllegalArgumentException("the root directory has " + FatLayout.ROOT_ENTRIES + " slots, not " + slots);
        }
        List<ClusterRun> runs = wide ? List.of(space.take(clustersOf(slots))) : List.of();
        table.chain(runs);
        target.note("table 1", layout.tableByte(0));
        target.note("table 2", layout.tableByte(1));
        target.note("root", wide ? layout.heapByte() : layout.rootByte());
        open.add(new Open(root, "", runs, 0));
        while (!open.isEmpty()) {
            write(open.remove());
        }
        deleted.forEach(space::release);
        table.mirror(target.sectorSize());
        long next = space.next() < layout.clusterEnd() ? space.next() : 2;
        FatBoot.write(target, layout, layout.clusters() - space.used(), next);
    }

    private boolean hasLabel() {
        return !target.volume().label().isEmpty();
    }

    private long clustersOf(int slots) {
        return Math.max(1, stream.clusters(slots * 32L));
    }

    private void write(Open current) throws IOException {
        Folder folder = current.folder();
        boolean root = current.path().isEmpty();
        int slots = FatDirectory.slots(folder.children(), root ? hasLabel() ? 1 : 0 : 2);
        FatDirectory directory = new FatDirectory(slots);
        if (!root) {
            directory.dots(folder.times(), current.first(), current.parent());
        } else if (hasLabel()) {
            directory.label(target.volume().label(), folder.times());
        }
        for (Node child : folder.children()) {
            String path = root ? child.name() : current.path() + "/" + child.name();
            List<ClusterRun> runs = place(child, path, root ? 0 : current.first());
            int offset = directory.add(child, runs.isEmpty() ? 0 : runs.get(0).first());
            target.note(path, byteOf(current, offset), -1, runs, layout.heapByte(), 2);
        }
        if (current.runs().isEmpty()) {
            medium.write(layout.rootByte(), directory.bytes());
        } else {
            stream.write(directory.bytes(), current.runs());
        }
    }

    private List<ClusterRun> place(Node child, String path, long parent) throws IOException {
        if (child instanceof Folder inner) {
            List<ClusterRun> runs = List.of(space.take(clustersOf(FatDirectory.slots(inner.children(), 2))));
            table.chain(runs);
            open.add(new Open(inner, path, runs, parent));
            return runs;
        }
        DataFile file = (DataFile) child;
        if (file.bytes() > 0xFFFFFFFFL) {
            throw new IllegalArgumentException("FAT stores 4294967295 bytes per file at most: " + path);
        }
        List<ClusterRun> runs = space.take(stream.clusters(file.bytes()), file.pieces(), () -> 1 + gaps.below(4));
        stream.write(file, path, runs);
        if (file.deleted()) {
            deleted.addAll(runs);
        } else {
            table.chain(runs);
        }
        return runs;
    }

    private long byteOf(Open current, int offset) {
        return current.runs().isEmpty() ? layout.rootByte() + offset : stream.byteOf(current.first()) + offset;
    }
}
