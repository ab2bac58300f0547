package sectorglass.make.exfat;

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
import sectorglass.make.write.AllocationBits;
import sectorglass.make.write.Block;
import sectorglass.make.write.ClusterRun;
import sectorglass.make.write.ClusterSpace;
import sectorglass.make.write.FileStream;
import sectorglass.make.write.UpCase;
import sectorglass.make.write.VolumeTarget;

/** Writes an exFAT volume: bitmap, up-case table and root first, then folder by folder in breadth, clusters in rising order. */
public final class ExfatWriter {

    private record Open(Folder folder, String path, ClusterRun run) {
    }

    private final VolumeTarget target;
    private final Medium medium;
    private final ExfatLayout layout;
    private final ClusterSpace space;
    private final FileStream stream;
    private final SplitMix64 gaps;
    private final List<ClusterRun> deleted = new ArrayList<>();
    private final Deque<Open> open = new ArrayDeque<>();

    /** For one volume. */
    public ExfatWriter(VolumeTarget target) {
        this.target = target;
        medium = target.medium();
        layout = new ExfatLayout(target);
        space = new ClusterSpace(2, layout.clusters() + 2);
        stream = new FileStream(medium, layout.heapByte(), 2, target.volume().clusterBytes(), target.seed());
        gaps = SplitMix64.of(target.seed(), "gaps");
    }

    /** Writes everything. */
    public void write() throws IOException {
        Folder root = target.volume().root();
        byte[] upCase = UpCase.EXFAT.compressed();
        long bitmapBytes = (layout.clusters() + 7) / 8;
        ClusterRun bitmap = space.take(stream.clusters(bitmapBytes));
        ClusterRun table = space.take(stream.clusters(upCase.length));
        ClusterRun rootRun = space.take(Math.max(1, stream.clusters(ExfatDirectory.bytes(root.children(), 3))));
        link(0, 0xFFFFFFF8L);
        link(1, 0xFFFFFFFFL);
        chain(List.of(bitmap));
        chain(List.of(table));
        chain(List.of(rootRun));
        stream.write(upCase, List.of(table));
        open.add(new Open(root, "", rootRun));
        while (!open.isEmpty()) {
            write(open.remove(), bitmap, bitmapBytes, table, upCase);
        }
        deleted.forEach(space::release);
        AllocationBits.write(medium, stream.byteOf(bitmap.first()), 2, space.runs());
        ExfatBoot.write(target, layout, rootRun.first(), space.used());
        target.note("bitmap", stream.byteOf(bitmap.first()));
        target.note("up-case", stream.byteOf(table.first()));
        target.note("root", stream.byteOf(rootRun.first()));
    }

    private void write(Open current, ClusterRun bitmap, long bitmapBytes, ClusterRun table, byte[] upCase) throws IOException {
        boolean root = current.path().isEmpty();
        ExfatDirectory directory = new ExfatDirectory(ExfatDirectory.bytes(current.folder().children(), root ? 3 : 0));
        if (root) {
            directory.label(target.volume().label());
            directory.bitmap(bitmap, bitmapBytes);
            directory.upCase(table, upCase);
        }
        for (Node child : current.folder().children()) {
            String path = root ? child.name() : current.path() + "/" + child.name();
            List<ClusterRun> runs = place(child, path);
            long bytes = child instanceof DataFile file ? file.bytes()
                    : runs.get(0).count() * target.volume().clusterBytes();
            int offset = directory.add(child, runs, bytes);
            target.note(path, stream.byteOf(current.run().first()) + offset, -1, runs, layout.heapByte(), 2);
        }
        stream.write(directory.bytes(), List.of(current.run()));
    }

    private List<ClusterRun> place(Node child, String path) throws IOException {
        if (child instanceof Folder inner) {
            ClusterRun run = space.take(Math.max(1, stream.clusters(ExfatDirectory.bytes(inner.children(), 0))));
            open.add(new Open(inner, path, run));
            return List.of(run);
        }
        DataFile file = (DataFile) child;
        List<ClusterRun> runs = space.take(stream.clusters(file.bytes()), file.pieces(), () -> 1 + gaps.below(4));
        stream.write(file, path, runs);
        if (file.deleted()) {
            deleted.addAll(runs);
        }
        if (runs.size() > 1) {
            chain(runs);
        }
        return runs;
    }

    private void chain(List<ClusterRun> runs) throws IOException {
        for (int i = 0; i < runs.size(); i++) {
            ClusterRun run = runs.get(i);
            for (long cluster = run.first(); cluster < run.end() - 1; cluster++) {
                link(cluster, cluster + 1);
            }
            link(run.end() - 1, i + 1 < runs.size() ? runs.get(i + 1).first() : 0xFFFFFFFFL);
        }
    }

    private void link(long cluster, long value) throws IOException {
        medium.write(layout.tableByte() + cluster * 4, new Block(4).u32(0, value).bytes());
    }
}
