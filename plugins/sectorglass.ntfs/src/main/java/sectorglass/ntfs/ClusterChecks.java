package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/** The accounting of clusters: claimed twice, claimed but free, in use but unclaimed. Part of a full check. */
final class ClusterChecks {
    private static final String TWICE = "ntfs.cluster-claimed-twice";
    private static final String SELF = "ntfs.run.overlap-self";
    private static final String FREE = "ntfs.claimed-but-free";
    private static final String UNCLAIMED = "ntfs.allocated-but-unclaimed";
    private static final int MOST_FINDINGS = 500;
    private static final int SHOWN = 8;

    private final FileTable table;
    private final Geometry geometry;
    private final ClusterMap map;
    private final Claims claims;
    private final Checks out;

    /** Ranges of clusters with one owner: the first ones as text, the first as a place. */
    private static final class Ranges {
        final List<String> shown = new ArrayList<>();
        long clusters;
        long first = -1;

        void add(long lcn, long count) {
            first = first < 0 ? lcn : first;
            clusters += count;
            if (shown.size() < SHOWN) {
                shown.add(count == 1 ? "" + lcn : lcn + " to " + (lcn + count - 1));
            } else if (shown.size() == SHOWN) {
                shown.add("…");
            }
        }
    }

    ClusterChecks(FileTable table, ClusterMap map, Claims claims, Checks out) {
        this.table = table;
        this.geometry = table.geometry();
        this.map = map;
        this.claims = claims;
        this.out = out;
    }

    /**
     * Runs the accounting.
     *
     * @param total verdict about the number of sectors: a wrong one brings clusters that nobody knows
     * @param records what the rules of single records found: lost records leave their clusters unclaimed
     * @param unread sectors of the file table that were not read
     */
    void run(Mark total, Tally records, SectorRanges unread, Progress progress) {
        claims.sort();
        Mark twice = twice(records, progress);
        compare(records, total != null && total.failed() ? total : twice, unread, progress);
    }

    private Mark twice(Tally records, Progress progress) {
        long end = -1;
        int owner = -1;
        Mark first = null;
        boolean self = false;
        Map<Long, Object[]> pairs = new LinkedHashMap<>();
        for (int place = 0; place < claims.rows(); place++) {
            if ((place & 0xFFFF) == 0) {
                progress.checkCancelled();
            }
            int row = claims.row(place);
            long lcn = claims.lcn(row);
            if (lcn < end) {
                long shared = Math.min(end, lcn + claims.count(row)) - lcn;
                boolean same = claims.record(row) == claims.record(owner) && claims.attribute(row) == claims.attribute(owner);
                int later = claims.record(row) >= claims.record(owner) ? row : owner;
                int earlier = later == row ? owner : row;
                long key = same ? -1L - claims.record(row) : (long) claims.record(later) << 31 ^ claims.record(earlier);
                if (pairs.size() < MOST_FINDINGS || pairs.containsKey(key)) {
                    Ranges ranges = (Ranges) pairs.computeIfAbsent(key, k -> new Object[] {new Ranges(), later, earlier, same})[0];
                    ranges.add(lcn, shared);
                }
                self |= same;
            }
            if (lcn + claims.count(row) > end) {
                end = lcn + claims.count(row);
                owner = row;
            }
        }
        for (Object[] pair : pairs.values()) {
            Ranges ranges = (Ranges) pair[0];
            int later = (int) pair[1];
            boolean same = (boolean) pair[3];
            int record = claims.record(later);
            Outcome outcome = same ? Outcome.failed(ranges.first, "each cluster once").with("record", record).with("records", record)
                    .with("affected", 1)
                    : Outcome.failed(String.join(", ", ranges.shown), "one owner").with("record", record)
                            .with("other", claims.record((int) pair[2])).with("clusters", ranges.clusters);
            Mark mark = out.report(same ? SELF : TWICE, runPlace(later), outcome.because(records.mark(record)));
            first = first == null ? mark : first;
        }
        if (pairs.isEmpty()) {
            out.report(TWICE, tablePlace(), Outcome.passed());
        }
        if (!self) {
            out.report(SELF, tablePlace(), Outcome.passed());
        }
        return first;
    }

    private ByteRange tablePlace() {
        return new ByteRange(Math.max(0, table.address(0)), geometry.recordBytes());
    }

    /** The byte in a record where the run of a claim begins. */
    private ByteRange runPlace(int row) {
        RecordView view = new RecordView();
        int record = claims.record(row);
        int offset = claims.attribute(row);
        if (table.load(record, view) && view.usable()) {
            view.rewind();
            while (view.nextAttribute() && view.attribute != offset) {
                // on to the attribute
            }
            if (view.attribute == offset && !view.resident()) {
                RunList runs = new RunList();
                runs.add(view, view.runsOffset(), view.next, Math.max(0, view.lowestVcn()));
                int at = view.runsOffset();
                for (int i = 0; i < runs.runs(); i++) {
                    int length = 1 + (view.u8(at) & 15) + (view.u8(at) >> 4);
                    if (runs.lcn(i) >= 0 && claims.lcn(row) >= runs.lcn(i) && claims.lcn(row) - runs.lcn(i) < runs.count(i)) {
                        return new ByteRange(Math.max(0, table.byteAt(record, at)), length);
                    }
                    at += length;
                }
            }
        }
        return new ByteRange(Math.max(0, table.byteAt(record, offset)), 8);
    }

    /** Goes over bitmap and claims together, both in order of clusters. */
    private void compare(Tally records, Mark known, SectorRanges unread, Progress progress) {
        Map<Integer, Ranges> free = new LinkedHashMap<>();
        Ranges unclaimed = new Ranges();
        SectorRanges[] missing = {SectorRanges.EMPTY};
        int[] place = {0};
        long[] end = {0};
        int[] owner = {-1};
        map.read(0, geometry.clusters(), (first, count, part) -> {
            progress.checkCancelled();
            progress.at("clusters", first, geometry.clusters());
            missing[0] = missing[0].union(part.missing(0, part.bytes.length));
            int at = 0;
            while (at < count) {
                long lcn = first + at;
                while (place[0] < claims.rows() && claims.lcn(claims.row(place[0])) <= lcn) {
                    int row = claims.row(place[0]++);
                    if (claims.lcn(row) + claims.count(row) > end[0]) {
                        end[0] = claims.lcn(row) + claims.count(row);
                        owner[0] = row;
                    }
                }
                boolean claimed = end[0] > lcn;
                long next = place[0] < claims.rows() ? claims.lcn(claims.row(place[0])) : Long.MAX_VALUE;
                // as long as the same owner holds, or nobody
                int limit = (int) Math.min(count, Math.min(next, claimed ? end[0] : Long.MAX_VALUE) - first);
                limit = Math.min(limit, (at / 4096 + 1) * 4096);
                if (!part.isRead(at / 8, 1)) {
                    at = limit;
                    continue;
                }
                boolean set = ClusterMap.bit(part.bytes, at);
                int to = ClusterMap.runEnd(part.bytes, at, limit, set);
                to = Math.min(to, limit);
                if (claimed && !set) {
                    int record = claims.record(owner[0]);
                    if (free.size() < MOST_FINDINGS || free.containsKey(record)) {
                        free.computeIfAbsent(record, r -> new Ranges()).add(lcn, to - at);
                    }
                } else if (!claimed && set) {
                    unclaimed.add(lcn, to - at);
                }
                at = to;
            }
        });
        report(free, unclaimed, missing[0], records, known, unread);
    }

    private void report(Map<Integer, Ranges> free, Ranges unclaimed, SectorRanges missing, Tally records, Mark known, SectorRanges unread) {
        FileStream bitmap = map.stream();
        if (bitmap == null) {
            return;
        }
        Mark freeMark = null;
        for (Map.Entry<Integer, Ranges> one : free.entrySet()) {
            Ranges ranges = one.getValue();
            Mark mark = out.report(FREE, Places.range(geometry, bitmap, ranges.first / 8, 1), Outcome.failed(String.join(", ", ranges.shown), "in use")
                    .with("record", one.getKey()).with("clusters", ranges.clusters).because(records.mark(one.getKey())));
            freeMark = freeMark == null ? mark : freeMark;
        }
        ByteRange all = Places.range(geometry, bitmap, 0, 1);
        if (free.isEmpty()) {
            out.report(FREE, all, missing.isEmpty() ? Outcome.passed() : Outcome.unread(missing));
        }
        if (unclaimed.clusters == 0) {
            out.report(UNCLAIMED, all, missing.isEmpty() ? Outcome.passed() : Outcome.unread(missing));
        } else if (!unread.isEmpty()) {
            out.report(UNCLAIMED, all, Outcome.unread(unread));
        } else {
            Mark cause = known != null ? known : records.any();
            out.report(UNCLAIMED, Places.range(geometry, bitmap, unclaimed.first / 8, 1), Outcome.failed(String.join(", ", unclaimed.shown),
                    "an owner, or free").with("clusters", unclaimed.clusters).because(cause));
        }
    }
}
