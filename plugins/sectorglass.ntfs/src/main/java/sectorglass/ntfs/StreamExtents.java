package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Extent;

/** Turns the runs of a stream into pieces of its content: holes, what lies beyond the initialised size, compressed units. */
final class StreamExtents {
    /** Claims beyond this are not followed: it keeps the sums in 63 bits. */
    private static final long MOST_BYTES = 1L << 61;

    private final Geometry geometry;
    private final FileStream stream;
    private final List<Extent> extents = new ArrayList<>();
    /** Bytes of the stream that the pieces reach to. */
    private final long end;

    private StreamExtents(Geometry geometry, FileStream stream) {
        this.geometry = geometry;
        this.stream = stream;
        this.end = stream.sized ? Math.min(MOST_BYTES, stream.real) : bytes(stream.runs.end());
    }

    /** The pieces in order, without gaps, to the end of the stream. */
    static List<Extent> of(Geometry geometry, FileStream stream) {
        if (stream.resident) {
            return stream.value.length == 0 ? List.of() : List.of(stream.valueByte < 0 ? Extent.unknown(0, stream.value.length)
                    : new Extent(Extent.Kind.RESIDENT, 0, stream.value.length, stream.valueByte, stream.value.length));
        }
        StreamExtents made = new StreamExtents(geometry, stream);
        if (stream.compressed() && stream.unit > 0 && stream.unit < 12) {
            made.units();
        } else {
            made.runs();
        }
        if (stream.sized && stream.real > made.end) {
            made.add(Extent.unknown(made.end, stream.real - made.end));
        }
        return List.copyOf(made.extents);
    }

    private void runs() {
        RunList runs = stream.runs;
        long at = 0;
        for (int i = 0; i < runs.runs() && at < end; i++) {
            long from = Math.min(end, bytes(runs.vcn(i)));
            long to = Math.min(end, bytes(runs.vcn(i) + runs.count(i)));
            if (to <= at) {
                continue;
            }
            if (from > at) {
                add(Extent.unknown(at, from - at));
                at = from;
            }
            mapped(runs, i, at, to);
            at = to;
        }
        if (at < end) {
            rest(at);
        }
    }

    /** What no run covers: zero beyond the initialised size as far as the stream says it has clusters, unknown otherwise. */
    private void rest(long from) {
        long written = Math.max(from, Math.min(end, stream.sized ? stream.initialised : end));
        if (written > from) {
            add(Extent.unknown(from, written - from));
        }
        long backed = stream.sized ? Math.max(written, Math.min(end, stream.allocated)) : written;
        if (backed > written) {
            add(Extent.hole(written, backed - written));
        }
        if (end > backed) {
            add(Extent.unknown(backed, end - backed));
        }
    }

    private void mapped(RunList runs, int run, long from, long to) {
        if (runs.lcn(run) == RunList.HOLE) {
            add(Extent.hole(from, to - from));
            return;
        }
        // whole sectors beyond the initialised size are zero by definition; the one it ends in is read
        long written = stream.sized ? Math.min(to, roundUp(stream.initialised, geometry.sectorBytes())) : to;
        long inVolume = Math.min(written, from + Math.max(0, bytes(geometry.clusters() - runs.lcn(run)) - (from - bytes(runs.vcn(run)))));
        if (inVolume > from) {
            add(Extent.plain(from, inVolume - from, geometry.clusterByte(runs.lcn(run)) + from - bytes(runs.vcn(run))));
        }
        long next = Math.max(from, inVolume);
        if (written > next) {
            add(Extent.unknown(next, written - next));
            next = written;
        }
        if (to > next) {
            add(Extent.hole(next, to - next));
        }
    }

    private static long roundUp(long value, int unit) {
        return value > Long.MAX_VALUE - unit ? Long.MAX_VALUE : (value + unit - 1) / unit * unit;
    }

    private long bytes(long clusters) {
        return clusters <= 0 ? 0 : clusters >= MOST_BYTES / geometry.clusterBytes() ? MOST_BYTES : clusters * geometry.clusterBytes();
    }

    /** Unit by unit; runs of whole units that are all holes or all mapped are taken together. */
    private void units() {
        RunList runs = stream.runs;
        long unit = 1L << stream.unit;
        long at = 0;
        long clusters = (end + geometry.clusterBytes() - 1) / geometry.clusterBytes();
        for (int i = 0; i < runs.runs() && at < clusters;) {
            if (runs.vcn(i) + runs.count(i) <= at) {
                i++;
                continue;
            }
            if (runs.vcn(i) > at) {
                long to = Math.min(clusters, runs.vcn(i) / unit * unit);
                if (to > at) {
                    add(Extent.unknown(bytes(at), Math.min(end, bytes(to)) - bytes(at)));
                    at = to;
                    continue;
                }
            } else {
                long whole = Math.min(runs.vcn(i) + runs.count(i), Math.max(clusters, at)) / unit * unit;
                if (whole > at) {
                    mapped(runs, i, bytes(at), Math.min(end, bytes(whole)));
                    at = whole;
                    continue;
                }
            }
            unit(i, at, at + unit);
            at += unit;
        }
        if (bytes(at) < end) {
            rest(bytes(at));
        }
    }

    /** One unit that several runs share: mapped clusters, then a hole; or damaged. */
    private void unit(int firstRun, long from, long to) {
        RunList runs = stream.runs;
        long length = Math.min(end, bytes(to)) - bytes(from);
        List<Extent> parts = new ArrayList<>(2);
        long at = from;
        boolean hole = false;
        boolean odd = false;
        for (int i = firstRun; i < runs.runs() && runs.vcn(i) < to; i++) {
            long first = Math.max(at, runs.vcn(i));
            long last = Math.min(to, runs.vcn(i) + runs.count(i));
            if (last <= first) {
                continue;
            }
            odd |= first > at;
            if (runs.lcn(i) == RunList.HOLE) {
                hole = true;
            } else {
                long lcn = runs.lcn(i) + first - runs.vcn(i);
                odd |= hole || !geometry.holds(lcn, last - first);
                parts.add(new Extent(Extent.Kind.PLAIN, 0, 1, geometry.firstByte() + lcn * geometry.clusterBytes(),
                        bytes(last - first)));
            }
            at = last;
        }
        // a unit at the end of the runs may end without a hole when its stream does
        boolean whole = at == to || bytes(at) >= end;
        if (odd || !whole || parts.isEmpty() && at < to && !hole) {
            add(Extent.unknown(bytes(from), length));
        } else if (parts.isEmpty()) {
            add(Extent.hole(bytes(from), length));
        } else if (hole) {
            compressed(parts, bytes(from), length);
        } else {
            plain(parts, bytes(from), length);
        }
    }

    /** Parts of one compressed unit that stand apart share its bytes among them. */
    private void compressed(List<Extent> parts, long offset, long length) {
        long at = offset;
        for (int i = 0; i < parts.size(); i++) {
            Extent part = parts.get(i);
            long share = i == parts.size() - 1 ? offset + length - at : Math.min(1, offset + length - at);
            if (share > 0) {
                extents.add(new Extent(Extent.Kind.COMPRESSED, at, share, part.imageByte(), part.stored()));
                at += share;
            }
        }
    }

    private void plain(List<Extent> parts, long offset, long length) {
        long at = offset;
        for (Extent part : parts) {
            long share = Math.min(part.stored(), offset + length - at);
            if (share > 0) {
                add(Extent.plain(at, share, part.imageByte()));
                at += share;
            }
        }
    }

    private void add(Extent extent) {
        if (extent.length() <= 0) {
            return; // beyond what can be followed
        }
        Extent last = extents.isEmpty() ? null : extents.get(extents.size() - 1);
        boolean joins = last != null && last.kind() == extent.kind() && (last.kind() == Extent.Kind.HOLE
                || last.kind() == Extent.Kind.UNKNOWN || last.kind() == Extent.Kind.PLAIN
                && last.imageByte() + last.stored() == extent.imageByte());
        if (joins) {
            extents.set(extents.size() - 1, new Extent(last.kind(), last.offset(), last.length() + extent.length(), last.imageByte(),
                    last.kind() == Extent.Kind.PLAIN ? last.stored() + extent.stored() : 0));
        } else {
            extents.add(extent);
        }
    }
}
