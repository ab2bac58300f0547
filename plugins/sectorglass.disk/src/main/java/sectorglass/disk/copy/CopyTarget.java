package sectorglass.disk.copy;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;

import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;

/** Takes whole sectors of a copy. Only what was read of the source becomes read in the copy. */
public final class CopyTarget {

    /** Writes bytes of the copy. */
    @FunctionalInterface
    public interface Sink {
        /** @throws IOException if it fails */
        void write(long firstByte, byte[] bytes, int offset, int length) throws IOException;
    }

    private static final int MOST_RUNS = 1 << 16;

    private final SectorImage source;
    private final Sink sink;
    private final List<SectorRange> runs = new ArrayList<>();
    private SectorRanges put = SectorRanges.EMPTY;
    private long runFirst;
    private long runCount;

    /**
     * @param source the image that is copied
     * @param sink takes the bytes
     */
    public CopyTarget(SectorImage source, Sink sink) {
        this.source = source;
        this.sink = sink;
    }

    /** The image that is copied. */
    public SectorImage source() {
        return source;
    }

    /** The sectors put so far. */
    public SectorRanges sectors() {
        flush();
        put = put.union(SectorRanges.of(runs));
        runs.clear();
        return put;
    }

    /** Puts sectors as they stand. */
    public void asTheyStand(long firstByte, int length) {
        Window window = source.window(firstByte, length);
        put(window, window.raw(0, length));
    }

    /**
     * Puts bytes in place of those of a window, which may be joined from pieces of whole sectors; sectors that were not read, or that lie beyond the
     * image, are left out.
     */
    public void put(Window window, byte[] bytes) {
        int size = source.sectorSize();
        if (bytes.length % size != 0 || bytes.length > window.length()) {
            throw new IllegalArgumentException("length=" + bytes.length);
        }
        try {
            for (int at = 0; at < bytes.length; at += size) {
                long where = window.address(at);
                if (where % size == 0 && window.isRead(at, size) && where / size < source.sectors()) {
                    sink.write(where, bytes, at, size);
                    put(where / size);
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Notes a sector; runs are collected before they are joined with the others. */
    private void put(long lba) {
        if (runCount > 0 && lba == runFirst + runCount) {
            runCount++;
            return;
        }
        flush();
        runFirst = lba;
        runCount = 1;
    }

    private void flush() {
        if (runCount > 0) {
            runs.add(new SectorRange(runFirst, runCount));
            runCount = 0;
        }
        if (runs.size() >= MOST_RUNS) {
            put = put.union(SectorRanges.of(runs));
            runs.clear();
        }
    }
}
