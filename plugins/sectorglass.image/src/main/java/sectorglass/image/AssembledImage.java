package sectorglass.image;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * An image put together from pieces of others: a logical volume, a set of striped or mirrored disks. A piece with several sources takes
 * each sector from the first of them that was read; a piece without a source is unread. Immutable, safe for several threads.
 */
public final class AssembledImage implements SectorImage {

    /**
     * Where the bytes of a piece stand.
     *
     * @param image holds them
     * @param firstByte its byte that stands at the start of the piece
     */
    public record Source(SectorImage image, long firstByte) { }

    /**
     * A run of bytes of the assembled image.
     *
     * @param start its first byte
     * @param length bytes, more than 0
     * @param sources the places that hold it, the most trusted first; empty where none does
     */
    public record Piece(long start, long length, List<Source> sources) {

        /** First byte after it. */
        public long end() {
            return start + length;
        }
    }

    /** Tells which piece holds a byte. */
    @FunctionalInterface
    public interface Layout {
        /** @param at a byte of the assembled image */
        Piece at(long at);
    }

    private final String name;
    private final int sectorSize;
    private final long bytes;
    private final Layout layout;

    /**
     * @param sectorSize bytes per sector of the whole
     * @param bytes length of the whole
     * @param layout gives a piece for each byte below {@code bytes}
     */
    public AssembledImage(String name, int sectorSize, long bytes, Layout layout) {
        this.name = name;
        this.sectorSize = sectorSize;
        this.bytes = bytes;
        this.layout = layout;
    }

    /** A row of pieces that follow each other from byte 0. */
    public static AssembledImage of(String name, int sectorSize, List<Piece> pieces) {
        List<Piece> row = List.copyOf(pieces);
        long[] starts = row.stream().mapToLong(Piece::start).toArray();
        long bytes = row.isEmpty() ? 0 : row.get(row.size() - 1).end();
        return new AssembledImage(name, sectorSize, bytes, at -> {
            int found = Arrays.binarySearch(starts, at);
            return row.get(found >= 0 ? found : -found - 2);
        });
    }

    /** The piece that holds a byte. */
    public Piece piece(long at) {
        return layout.at(at);
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public int sectorSize() {
        return sectorSize;
    }

    @Override
    public long bytes() {
        return bytes;
    }

    @Override
    public SectorStates read(long firstByte, byte[] into, int offset, int length) {
        SectorRange sectors = new ByteRange(firstByte, length).sectors(sectorSize);
        byte[] states = new byte[(int) sectors.count()];
        Arrays.fill(into, offset, offset + length, (byte) 0);
        long end = firstByte + length;
        for (long at = firstByte; at < end;) {
            if (at >= bytes) {
                worse(states, sectors.first(), new ByteRange(at, end - at), ReadState.UNREAD);
                break;
            }
            Piece piece = layout.at(at);
            int part = (int) (Math.min(end, Math.min(bytes, piece.end())) - at);
            readPiece(piece, at, into, (int) (offset + at - firstByte), part, states, sectors.first());
            at += part;
        }
        return SectorStates.ofOrdinals(sectorSize, sectors.first(), states);
    }

    private void readPiece(Piece piece, long at, byte[] into, int offset, int length, byte[] states, long firstSector) {
        List<ByteRange> open = List.of(new ByteRange(at, length));
        ReadState first = ReadState.UNREAD;
        for (int i = 0; i < piece.sources().size() && !open.isEmpty(); i++) {
            Source source = piece.sources().get(i);
            List<ByteRange> left = new ArrayList<>();
            for (ByteRange range : open) {
                long byteThere = source.firstByte() + range.start() - piece.start();
                int target = (int) (offset + range.start() - at);
                SectorStates got = source.image().read(byteThere, into, target, (int) range.length());
                for (SectorRange run : got.missing(byteThere, range.length())) {
                    long size = source.image().sectorSize();
                    long from = Math.max(byteThere, run.first() * size);
                    long to = Math.min(byteThere + range.length(), run.end() * size);
                    first = i == 0 ? got.at(run.first()) : first;
                    Arrays.fill(into, (int) (target + from - byteThere), (int) (target + to - byteThere), (byte) 0);
                    left.add(new ByteRange(range.start() + from - byteThere, to - from));
                }
            }
            open = left;
        }
        for (ByteRange range : open) {
            worse(states, firstSector, range, first);
        }
    }

    private void worse(byte[] states, long firstSector, ByteRange range, ReadState state) {
        SectorRange sectors = range.sectors(sectorSize);
        Arrays.fill(states, (int) (sectors.first() - firstSector), (int) (sectors.end() - firstSector), (byte) state.ordinal());
    }

    @Override
    public ReadState state(long lba) {
        if (lba < 0 || lba >= sectors()) {
            return ReadState.UNREAD;
        }
        Piece piece = layout.at(lba * sectorSize);
        if (piece.end() < (lba + 1) * sectorSize) {
            return read(lba * sectorSize, new byte[sectorSize], 0, sectorSize).at(lba);
        }
        ReadState state = ReadState.UNREAD;
        for (int i = 0; i < piece.sources().size(); i++) {
            ReadState there = state(piece.sources().get(i), lba * sectorSize - piece.start());
            if (there == ReadState.READ) {
                return there;
            }
            state = i == 0 ? there : state;
        }
        return state;
    }

    private ReadState state(Source source, long at) {
        long size = source.image().sectorSize();
        long first = (source.firstByte() + at) / size;
        long last = (source.firstByte() + at + sectorSize - 1) / size;
        for (long lba = first; lba <= last; lba++) {
            ReadState state = source.image().state(lba);
            if (state != ReadState.READ) {
                return state;
            }
        }
        return ReadState.READ;
    }

    @Override
    public SectorRanges inState(ReadState state, SectorRange within) {
        SectorRanges.Builder found = new SectorRanges.Builder();
        long end = Math.min(within.end(), sectors());
        for (long lba = within.first(); lba < end;) {
            Piece piece = layout.at(lba * sectorSize);
            long stop = Math.min(end, Math.max(lba + 1, piece.end() / sectorSize));
            if (stop * sectorSize > piece.end() || lba * sectorSize < piece.start()) {
                if (state(lba) == state) {
                    found.add(lba, 1);
                }
                lba++;
                continue;
            }
            SectorRange here = new SectorRange(lba, stop - lba);
            for (SectorRange run : inState(state, piece, here)) {
                found.add(run.first(), run.count());
            }
            lba = stop;
        }
        SectorRanges inside = found.build();
        if (state != ReadState.UNREAD || within.end() <= end) {
            return inside;
        }
        long beyond = Math.max(within.first(), sectors());
        return inside.union(SectorRanges.of(beyond, within.end() - beyond));
    }

    private SectorRanges inState(ReadState state, Piece piece, SectorRange here) {
        SectorRanges read = SectorRanges.EMPTY;
        for (Source source : piece.sources()) {
            read = read.union(own(source, piece, here, ReadState.READ, false));
        }
        if (state == ReadState.READ) {
            return read;
        }
        SectorRanges open = SectorRanges.of(here).minus(read);
        if (open.isEmpty() || piece.sources().isEmpty()) {
            return state == ReadState.UNREAD ? open : SectorRanges.EMPTY;
        }
        return open.intersect(own(piece.sources().get(0), piece, here, state, true));
    }

    /** Sectors of this image whose bytes are in the state in a source: all their bytes, or some of them. */
    private SectorRanges own(Source source, Piece piece, SectorRange here, ReadState state, boolean some) {
        long shift = source.firstByte() - piece.start();
        ByteRange there = new ByteRange(here.first() * sectorSize + shift, here.count() * sectorSize);
        SectorRanges.Builder own = new SectorRanges.Builder();
        long next = here.first();
        for (SectorRange run : source.image().inState(state, there.sectors(source.image().sectorSize()))) {
            long from = run.first() * source.image().sectorSize() - shift;
            long to = run.end() * source.image().sectorSize() - shift;
            long first = Math.max(next, some ? Math.floorDiv(from, sectorSize) : -Math.floorDiv(-from, sectorSize));
            long end = Math.min(here.end(), some ? -Math.floorDiv(-to, sectorSize) : Math.floorDiv(to, sectorSize));
            if (end > first) {
                own.add(first, end - first);
                next = end;
            }
        }
        return own.build();
    }
}
