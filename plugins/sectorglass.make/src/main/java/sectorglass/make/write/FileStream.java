package sectorglass.make.write;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;

import sectorglass.make.ContentKind;
import sectorglass.make.DataFile;
import sectorglass.make.Medium;
import sectorglass.make.content.FileContent;

/** Copies the content of a file into its runs of clusters. */
public final class FileStream {
    private static final int CHUNK = 1 << 16;

    private final Medium medium;
    private final long heapByte;
    private final long firstCluster;
    private final int clusterBytes;
    private final long seed;

    /**
     * For one volume.
     *
     * @param heapByte byte of the volume where cluster {@code firstCluster} begins
     */
    public FileStream(Medium medium, long heapByte, long firstCluster, int clusterBytes, long seed) {
        this.medium = medium;
        this.heapByte = heapByte;
        this.firstCluster = firstCluster;
        this.clusterBytes = clusterBytes;
        this.seed = seed;
    }

    /** Byte of the volume where a cluster begins. */
    public long byteOf(long cluster) {
        return heapByte + (cluster - firstCluster) * clusterBytes;
    }

    /** Clusters that so many bytes need. */
    public long clusters(long bytes) {
        return (bytes + clusterBytes - 1) / clusterBytes;
    }

    /** The whole content of a small file. */
    public byte[] whole(DataFile file, String path) throws IOException {
        try (InputStream in = FileContent.open(file, seed, path)) {
            return in.readAllBytes();
        }
    }

    /** Writes the content of a file into its runs; of zeros nothing is written. */
    public void write(DataFile file, String path, List<ClusterRun> runs) throws IOException {
        if (file.content() == ContentKind.ZERO || file.bytes() == 0) {
            return;
        }
        try (InputStream in = FileContent.open(file, seed, path)) {
            write(in, runs);
        }
    }

    private void write(InputStream in, List<ClusterRun> runs) throws IOException {
        byte[] chunk = new byte[CHUNK];
        for (ClusterRun run : runs) {
            long at = byteOf(run.first());
            long end = at + run.count() * clusterBytes;
            while (at < end) {
                int count = in.readNBytes(chunk, 0, (int) Math.min(CHUNK, end - at));
                if (count == 0) {
                    return;
                }
                medium.write(at, chunk, 0, count);
                at += count;
            }
        }
    }

    /** Writes the bytes of a directory or table into its runs. */
    public void write(byte[] bytes, List<ClusterRun> runs) throws IOException {
        write(new java.io.ByteArrayInputStream(bytes), runs);
    }
}
