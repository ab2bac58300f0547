package sectorglass.recovery;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

import sectorglass.disk.Sighting;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;

/** What a scan keeps: bounded, whatever the image holds. */
final class ScanCollector {
    /** Structures of one kind and sort that are kept. */
    private static final int MOST_OF_A_SORT = 4096;
    /** Rows of one signature that are kept. */
    private static final int MOST_ROWS = 4096;
    private static final int MOST_UNREAD_RUNS = 4096;

    private final String signatures;
    private final long bytes;
    private final StructureRow[] open;
    private final int[] rowsOf;
    private final List<StructureRow> rows;
    private final List<Sighting> single;
    private final Map<String, Integer> sorts = new HashMap<>();
    private final List<SectorRange> unread;
    private long leftOut;
    private long unreadSectors;

    ScanCollector(ScanState from, int wanted) {
        signatures = from.signatures();
        bytes = from.bytes();
        open = new StructureRow[wanted];
        rowsOf = new int[wanted];
        from.open().stream().filter(r -> r.signature() < wanted).forEach(r -> open[r.signature()] = r);
        rows = new ArrayList<>(from.rows().stream().filter(r -> r.signature() < wanted).toList());
        rows.forEach(r -> rowsOf[r.signature()]++);
        single = new ArrayList<>(from.single());
        single.forEach(s -> sorts.merge(sort(s), 1, Integer::sum));
        unread = new ArrayList<>(from.unread());
        leftOut = from.leftOut();
        unreadSectors = from.unreadSectors();
    }

    private static String sort(Sighting sighting) {
        return sighting.kind() + ' ' + sighting.structure();
    }

    void row(int signature, long at) {
        StructureRow now = open[signature];
        StructureRow longer = now == null ? StructureRow.of(signature, at) : now.with(at);
        if (longer == null) {
            close(now);
            longer = StructureRow.of(signature, at);
        }
        open[signature] = longer;
    }

    private void close(StructureRow row) {
        if (rowsOf[row.signature()] < MOST_ROWS) {
            rowsOf[row.signature()]++;
            rows.add(row);
        } else {
            // long rows tell more than short ones: the shortest of the last ones kept gives way
            int shortest = -1;
            for (int i = Math.max(0, rows.size() - 64); i < rows.size(); i++) {
                if (rows.get(i).signature() == row.signature() && (shortest < 0 || rows.get(i).count() < rows.get(shortest).count())) {
                    shortest = i;
                }
            }
            if (shortest >= 0 && rows.get(shortest).count() < row.count()) {
                rows.set(shortest, row);
            }
            leftOut++;
        }
    }

    void single(Sighting sighting) {
        if (sorts.merge(sort(sighting), 1, Integer::sum) <= MOST_OF_A_SORT) {
            single.add(sighting);
        } else {
            leftOut++;
        }
    }

    void unread(SectorRanges missing) {
        unreadSectors += missing.count();
        for (SectorRange run : missing) {
            SectorRange last = unread.isEmpty() ? null : unread.get(unread.size() - 1);
            if (last != null && last.end() == run.first()) {
                unread.set(unread.size() - 1, new SectorRange(last.first(), last.count() + run.count()));
            } else if (unread.size() < MOST_UNREAD_RUNS) {
                unread.add(run);
            }
        }
    }

    ScanState state(long position) {
        List<StructureRow> going = new ArrayList<>();
        for (StructureRow row : open) {
            if (row != null) {
                going.add(row);
            }
        }
        return new ScanState(signatures, bytes, position, going, List.copyOf(rows), List.copyOf(single), leftOut, List.copyOf(unread),
                unreadSectors);
    }
}
