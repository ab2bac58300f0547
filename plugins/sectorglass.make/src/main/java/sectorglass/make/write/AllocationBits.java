package sectorglass.make.write;

import java.io.IOException;
import java.util.List;

import sectorglass.make.Medium;

/** Writes runs of clusters as set bits, low bit of each byte first; zero bits are left as they are. */
public final class AllocationBits {
    private static final int CHUNK = 1 << 16;

    private AllocationBits() {
    }

    /** Sets the bits of the runs, cluster {@code firstCluster} being bit 0 of the byte at {@code at}. */
    public static void write(Medium medium, long at, long firstCluster, List<ClusterRun> runs) throws IOException {
        for (ClusterRun run : runs) {
            long bit = run.first() - firstCluster;
            long end = run.end() - firstCluster;
            while (bit < end) {
                long chunkEnd = Math.min(end, (bit / 8 / CHUNK + 1) * 8 * CHUNK);
                int length = (int) ((chunkEnd + 7) / 8 - bit / 8);
                byte[] bytes = medium.read(at + bit / 8, length);
                set(bytes, (int) (bit % 8), (int) (chunkEnd - bit / 8 * 8));
                medium.write(at + bit / 8, bytes);
                bit = chunkEnd;
            }
        }
    }

    private static void set(byte[] bytes, int from, int to) {
        for (int bit = from; bit < to; bit++) {
            if (bit % 8 == 0 && to - bit >= 8) {
                bytes[bit / 8] = (byte) 0xFF;
                bit += 7;
            } else {
                bytes[bit / 8] |= (byte) (1 << bit % 8);
            }
        }
    }
}
