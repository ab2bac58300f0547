package sectorglass.make.ntfs;

import java.io.ByteArrayOutputStream;
import java.util.List;

import sectorglass.make.write.ClusterRun;

/** Packs runs of clusters as NTFS stores them: header, length, signed distance from the run before. */
final class RunList {
    /** As first cluster: a run without clusters. */
    static final long SPARSE = -1;

    private RunList() {
    }

    static byte[] pack(List<ClusterRun> runs) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        long previous = 0;
        for (ClusterRun run : runs) {
            int lengthBytes = bytes(run.count());
            if (run.first() == SPARSE) {
                out.write(lengthBytes);
                put(out, run.count(), lengthBytes);
                continue;
            }
            long distance = run.first() - previous;
            int distanceBytes = bytes(distance);
            out.write(distanceBytes << 4 | lengthBytes);
            put(out, run.count(), lengthBytes);
            put(out, distance, distanceBytes);
            previous = run.first();
        }
        out.write(0);
        return out.toByteArray();
    }

    static long clusters(List<ClusterRun> runs) {
        return runs.stream().mapToLong(ClusterRun::count).sum();
    }

    /** Fewest bytes that hold a signed number. */
    private static int bytes(long value) {
        int bytes = 1;
        while (bytes < 8 && (value >> 8 * bytes - 1) != 0 && (value >> 8 * bytes - 1) != -1) {
            bytes++;
        }
        return bytes;
    }

    private static void put(ByteArrayOutputStream out, long value, int bytes) {
        for (int i = 0; i < bytes; i++) {
            out.write((int) (value >> 8 * i));
        }
    }
}
