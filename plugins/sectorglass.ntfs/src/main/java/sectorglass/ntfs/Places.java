package sectorglass.ntfs;

import sectorglass.image.ByteRange;

/** Where a byte of a stream stands in the image. */
final class Places {

    private Places() {
    }

    /** Image byte of a byte of a non-resident stream, or -1 where it stands nowhere. */
    static long of(Geometry geometry, RunList runs, long offset) {
        long vcn = offset / geometry.clusterBytes();
        int run = runs.runAt(vcn);
        if (run < 0 || runs.lcn(run) == RunList.HOLE || !geometry.holds(runs.lcn(run) + vcn - runs.vcn(run), 1)) {
            return -1;
        }
        return geometry.clusterByte(runs.lcn(run) + vcn - runs.vcn(run)) + offset % geometry.clusterBytes();
    }

    /** The image bytes of a field of a stream; at byte 0 where it stands nowhere. */
    static ByteRange range(Geometry geometry, FileStream stream, long offset, int length) {
        long at = stream.resident ? stream.valueByte < 0 ? -1 : stream.valueByte + offset : of(geometry, stream.runs, offset);
        return new ByteRange(Math.max(0, at), length);
    }
}
