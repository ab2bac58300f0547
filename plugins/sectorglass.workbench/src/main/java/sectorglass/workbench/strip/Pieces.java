package sectorglass.workbench.strip;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

import sectorglass.disk.Disk;
import sectorglass.disk.Partition;

/** Cuts a disk into partitions and gaps, without overlap: where partitions overlap, the earlier one keeps its sectors. */
final class Pieces {

    private Pieces() {
    }

    static List<Piece> of(Disk disk) {
        long sectors = Math.max(1, disk.image().sectors());
        List<Partition> sorted = new ArrayList<>(disk.partitions().stream().filter(Partition::placed).toList());
        sorted.sort(Comparator.comparingLong((Partition p) -> p.range().first()).thenComparingLong(p -> -p.range().count()));
        List<Piece> pieces = new ArrayList<>();
        long at = 0;
        int number = 0;
        for (Partition partition : sorted) {
            long first = Math.max(at, partition.range().first());
            long end = Math.min(sectors, partition.range().end());
            if (end <= first) {
                continue;
            }
            if (first > at) {
                pieces.add(new Piece(at, first, null, -1));
            }
            pieces.add(new Piece(first, end, partition, number++));
            at = end;
        }
        if (at < sectors) {
            pieces.add(new Piece(at, sectors, null, -1));
        }
        return pieces;
    }
}
