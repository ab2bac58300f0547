package sectorglass.workbench.strip;

import sectorglass.disk.Partition;

/**
 * A stretch of the disk: a partition or what lies between two.
 *
 * @param first first LBA
 * @param end first LBA after it
 * @param partition the partition, or null for a gap
 * @param number running number of the partition in the drawing, for two alternating tones
 */
record Piece(long first, long end, Partition partition, int number) {

    long sectors() {
        return end - first;
    }
}
