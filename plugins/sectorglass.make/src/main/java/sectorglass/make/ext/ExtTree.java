package sectorglass.make.ext;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;

import sectorglass.make.DataFile;
import sectorglass.make.Folder;
import sectorglass.make.Node;
import sectorglass.make.SplitMix64;
import sectorglass.make.write.ClusterRun;
import sectorglass.make.write.ClusterSpace;
import sectorglass.make.write.FileStream;
import sectorglass.make.write.VolumeTarget;

/** Writes the folders and files of an ext4 volume. */
final class ExtTree {
    private static final int ROOT = 2;
    private static final int LOST_AND_FOUND = 11;
    private static final int MOST_LINKS = 65000;

    private record Open(Folder folder, String path, long inode, long parent) {
    }

    private final VolumeTarget target;
    private final ExtGeometry geometry;
    private final ClusterSpace space;
    private final FileStream stream;
    private final SplitMix64 gaps;
    private final int seed;
    private final Deque<Open> open = new ArrayDeque<>();
    private final List<ClusterRun> deletedRuns = new ArrayList<>();
    private final List<Long> deletedInodes = new ArrayList<>();
    private final int[] directories;
    private long next = ExtGeometry.FIRST_USER_INODE;

    ExtTree(VolumeTarget target, ExtGeometry geometry, ClusterSpace space, int seed) {
        this.target = target;
        this.geometry = geometry;
        this.space = space;
        this.seed = seed;
        stream = new FileStream(target.medium(), 0, 0, geometry.blockBytes(), target.seed());
        gaps = SplitMix64.of(target.seed(), "gaps");
        directories = new int[geometry.groups()];
    }

    /** Inodes that a tree needs, the reserved ones among them. */
    static long count(Folder root) {
        return ExtGeometry.FIRST_USER_INODE - 1 + inside(root);
    }

    private static long inside(Folder folder) {
        long count = folder.children().size();
        for (Node child : folder.children()) {
            if (child instanceof Folder inner) {
                count += inside(inner);
            }
        }
        return count;
    }

    List<ClusterRun> deletedRuns() {
        return deletedRuns;
    }

    List<Long> deletedInodes() {
        return deletedInodes;
    }

    /** First inode that was not given away. */
    long nextInode() {
        return next;
    }

    /** Number of folders per group. */
    int[] directories() {
        return directories;
    }

    void write(Folder root) throws IOException {
        Folder lost = Folder.of("lost+found", root.times());
        open.add(new Open(root, "", ROOT, ROOT));
        while (!open.isEmpty()) {
            write(open.remove());
        }
        write(new Open(lost, "lost+found", LOST_AND_FOUND, ROOT));
    }

    private void write(Open current) throws IOException {
        DirectoryBlocks directory = new DirectoryBlocks(geometry.blockBytes());
        directory.add(".", current.inode(), DirectoryBlocks.DIRECTORY);
        directory.add("..", current.parent(), DirectoryBlocks.DIRECTORY);
        int links = 2;
        if (current.inode() == ROOT) {
            directory.add("lost+found", LOST_AND_FOUND, DirectoryBlocks.DIRECTORY);
            links++;
        }
        for (Node child : current.folder().children()) {
            String path = current.path().isEmpty() ? child.name() : current.path() + "/" + child.name();
            long inode = next++;
            if (child instanceof Folder inner) {
                open.add(new Open(inner, path, inode, current.inode()));
                directory.add(child.name(), inode, DirectoryBlocks.DIRECTORY);
                links++;
            } else if (file((DataFile) child, path, inode)) {
                directory.add(child.name(), inode, DirectoryBlocks.FILE);
            } else {
                directory.addDeleted(child.name(), inode);
            }
        }
        Inode inode = new Inode(current.inode(), seed, Inode.DIRECTORY, links > MOST_LINKS ? 1 : links, current.folder().times());
        List<byte[]> blocks = directory.finish(inode.ownSeed());
        List<ClusterRun> runs = List.of(space.take(blocks.size()));
        long at = stream.byteOf(runs.get(0).first());
        for (byte[] block : blocks) {
            target.medium().write(at, block);
            at += block.length;
        }
        inode.content(target.medium(), geometry.blockBytes(), (long) blocks.size() * geometry.blockBytes(), runs, 0);
        store(current.inode(), inode, current.path(), runs);
        directories[geometry.groupOf(current.inode())]++;
    }

    private void store(long number, Inode inode, String path, List<ClusterRun> runs) throws IOException {
        target.medium().write(geometry.inodeByte(number), inode.bytes());
        target.note(path, geometry.inodeByte(number), number, runs, 0, 0);
    }

    /** Writes a file; false where it is deleted. */
    private boolean file(DataFile file, String path, long number) throws IOException {
        List<ClusterRun> runs = space.take(stream.clusters(file.bytes()), file.pieces(), () -> 1 + gaps.below(4));
        stream.write(file, path, runs);
        int mode = (file.attributes() & 1) != 0 ? Inode.READ_ONLY_FILE : Inode.FILE;
        Inode inode = new Inode(number, seed, mode, 1, file.times());
        if (file.deleted()) {
            // the kernel empties the extent root of a deleted file (from memory)
            inode.delete(file.times().accessed().plusSeconds(86_400));
            deletedRuns.addAll(runs);
            deletedInodes.add(number);
        } else {
            long leaf = Inode.needsLeaf(runs) ? space.take(1).first() : 0;
            inode.content(target.medium(), geometry.blockBytes(), file.bytes(), runs, leaf);
        }
        store(number, inode, path, runs);
        return !file.deleted();
    }
}
