package sectorglass.make.ntfs;

import java.util.List;

import sectorglass.make.write.ClusterRun;

/**
 * A system file whose content lies in clusters.
 *
 * @param number its record
 * @param name its name in the root folder
 * @param runs clusters of its unnamed stream; empty where it has none
 * @param bytes size of its unnamed stream
 */
record SystemFile(int number, String name, List<ClusterRun> runs, long bytes) {

    static SystemFile of(int number, String name, ClusterRun run, long bytes) {
        return new SystemFile(number, name, List.of(run), bytes);
    }

    static SystemFile empty(int number, String name) {
        return new SystemFile(number, name, List.of(), 0);
    }

    /** Sequence number: that of the record, but 1 for the first. */
    int sequence() {
        return Math.max(1, number);
    }

    long allocated(NtfsGeometry geometry) {
        return RunList.clusters(runs) * geometry.clusterBytes();
    }
}
