package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import sectorglass.image.SectorImage;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;
import sectorglass.image.Window;

/**
 * Consecutive bytes of a stream, read through its runs: the bytes, and for each piece where it stands and whether it was read. A hole
 * reads as zero and counts as read; what no run covers, or what a run puts outside the volume, counts as not read.
 */
final class StreamPart {
    /** In place of an image byte: a hole. */
    static final long HOLE = -1;
    /** In place of an image byte: nobody knows where it stands. */
    static final long UNKNOWN = -2;

    /** A piece: {@code address} is the image byte of its first byte, or {@link #HOLE} or {@link #UNKNOWN}. */
    record Piece(int at, int length, long address, SectorStates states) { }

    final byte[] bytes;
    final List<Piece> pieces;

    private StreamPart(byte[] bytes, List<Piece> pieces) {
        this.bytes = bytes;
        this.pieces = pieces;
    }

    /**
     * Reads bytes of a stream.
     *
     * @param offset byte in the stream
     * @param length at most some MiB
     */
    static StreamPart read(SectorImage image, Geometry geometry, RunList runs, long offset, int length) {
        byte[] bytes = new byte[length];
        List<Piece> pieces = new ArrayList<>(2);
        int at = 0;
        while (at < length) {
            long byteInStream = offset + at;
            long vcn = byteInStream / geometry.clusterBytes();
            int run = runs.runAt(vcn);
            int count = length - at;
            if (run < 0) {
                count = (int) Math.min(count, bytesToNextRun(runs, vcn, byteInStream, geometry, count));
                pieces.add(new Piece(at, count, UNKNOWN, null));
                at += count;
                continue;
            }
            long intoRun = byteInStream - runs.vcn(run) * geometry.clusterBytes();
            long left = multiply(runs.count(run), geometry.clusterBytes()) - intoRun;
            count = (int) Math.min(count, left);
            if (runs.lcn(run) == RunList.HOLE) {
                pieces.add(new Piece(at, count, HOLE, null));
            } else {
                long inside = insideVolume(runs, run, vcn, geometry, byteInStream);
                if (inside <= 0) {
                    pieces.add(new Piece(at, count, UNKNOWN, null));
                } else {
                    count = (int) Math.min(count, inside);
                    long address = geometry.clusterByte(runs.lcn(run)) + intoRun;
                    pieces.add(new Piece(at, count, address, image.read(address, bytes, at, count)));
                }
            }
            at += count;
        }
        return new StreamPart(bytes, pieces);
    }

    private static long multiply(long count, int clusterBytes) {
        return count > Long.MAX_VALUE / clusterBytes ? Long.MAX_VALUE : count * clusterBytes;
    }

    private static long bytesToNextRun(RunList runs, long vcn, long byteInStream, Geometry geometry, long most) {
        long nearest = most;
        for (int i = 0; i < runs.runs(); i++) {
            if (runs.vcn(i) > vcn) {
                nearest = Math.min(nearest, multiply(runs.vcn(i), geometry.clusterBytes()) - byteInStream);
            }
        }
        return Math.max(1, nearest);
    }

    /** Bytes from here to the end of the run's part that lies inside the volume; 0 or less where this place lies outside. */
    private static long insideVolume(RunList runs, int run, long vcn, Geometry geometry, long byteInStream) {
        long lcn = runs.lcn(run) + (vcn - runs.vcn(run));
        long clusters = Math.min(geometry.clusters() - lcn, runs.count(run) - (vcn - runs.vcn(run)));
        return clusters <= 0 ? 0 : multiply(clusters, geometry.clusterBytes()) - byteInStream % geometry.clusterBytes();
    }

    /** Whether all of these bytes are data: read, or a hole. */
    boolean isRead(int at, int length) {
        for (Piece piece : pieces) {
            int from = Math.max(at, piece.at);
            int to = Math.min(at + length, piece.at + piece.length);
            if (to > from && (piece.address == UNKNOWN
                    || piece.address >= 0 && !piece.states.isRead(piece.address + from - piece.at, to - from))) {
                return false;
            }
        }
        return true;
    }

    /** The sectors under these bytes that were not read. */
    SectorRanges missing(int at, int length) {
        SectorRanges all = SectorRanges.EMPTY;
        for (Piece piece : pieces) {
            int from = Math.max(at, piece.at);
            int to = Math.min(at + length, piece.at + piece.length);
            if (to > from && piece.address >= 0) {
                all = all.union(piece.states.missing(piece.address + from - piece.at, to - from));
            }
        }
        return all;
    }

    /** Image byte of an offset, or {@link #HOLE} or {@link #UNKNOWN}. */
    long address(int at) {
        for (Piece piece : pieces) {
            if (at < piece.at + piece.length) {
                return piece.address < 0 ? piece.address : piece.address + at - piece.at;
            }
        }
        return UNKNOWN;
    }

    /** Loads a block of this part into a view, its update sequence undone in {@link #bytes}. */
    void load(FixedBlock view, int at, int length) {
        load(view, bytes, at, at, length);
    }

    /** Loads a copy of a block of this part into a view, so that undoing the update sequence leaves the stored bytes alone. */
    void loadCopy(FixedBlock view, int at, int length) {
        load(view, Arrays.copyOfRange(bytes, at, at + length), 0, at, length);
    }

    private void load(FixedBlock view, byte[] array, int start, int at, int length) {
        if (pieces.size() == 1 && pieces.get(0).address >= 0) {
            Piece only = pieces.get(0);
            view.load(array, start, length, only.states, only.address + at - only.at);
            return;
        }
        view.begin(array, start, length);
        for (Piece piece : pieces) {
            int from = Math.max(at, piece.at);
            int to = Math.min(at + length, piece.at + piece.length);
            if (to > from && piece.address != HOLE) {
                SectorStates states = piece.address == UNKNOWN ? SectorStates.of(512, 0) : piece.states;
                view.markUnread(from - at, to - from, states, Math.max(0, piece.address) + from - piece.at);
            }
        }
        view.finish();
    }

    /** The bytes as a window with addresses; null where a part of them stands nowhere. */
    static Window window(SectorImage image, Geometry geometry, RunList runs, long offset, int length) {
        List<Window> parts = new ArrayList<>(1);
        StreamPart part = read(image, geometry, runs, offset, length);
        for (Piece piece : part.pieces) {
            if (piece.address < 0) {
                return null;
            }
            parts.add(image.window(piece.address, piece.length));
        }
        return Window.joined(parts);
    }
}
