package sectorglass.image;

import java.io.Closeable;

/**
 * A disk or volume as it was read: bytes by 64-bit address, each sector with its read state. Read only, safe for use by several
 * threads. Nothing here throws because the medium failed: see {@link Window}.
 */
public interface SectorImage extends Closeable {

    /** A short name for people: the file name, or what an overlay stands for. */
    String name();

    /** Bytes per sector: 512, 1024, 2048 or 4096. */
    int sectorSize();

    /** Length in bytes, a cut-off last sector included. */
    long bytes();

    /** Whole sectors. */
    default long sectors() {
        return bytes() / sectorSize();
    }

    /** All whole sectors as one run. */
    default SectorRange all() {
        return new SectorRange(0, sectors());
    }

    /**
     * Reads bytes into an array and tells the state of each sector touched. Places beyond the end of the image are
     * {@link ReadState#UNREAD}; a failure of the file under the image is {@link ReadState#FAILED}. The array's content at
     * places that were not read is zero and means nothing.
     *
     * @param firstByte image byte, not negative
     * @param into receives {@code length} bytes from index {@code offset}
     * @return the states of the sectors that hold at least one of the bytes
     */
    SectorStates read(long firstByte, byte[] into, int offset, int length);

    /** The read state of a sector, from the read map; a sector beyond the end is {@link ReadState#UNREAD}. */
    ReadState state(long lba);

    /** The sectors of the run that are in the state; beyond the end all are {@link ReadState#UNREAD}. */
    SectorRanges inState(ReadState state, SectorRange within);

    /**
     * A window of exactly this length, whatever of it was read.
     *
     * @param firstByte image byte, not negative
     * @param length bytes, not negative
     */
    default Window window(long firstByte, int length) {
        byte[] bytes = new byte[length];
        return new Window(bytes, firstByte, read(firstByte, bytes, 0, length));
    }

    /** The window of one whole sector. */
    default Window sector(long lba) {
        return window(Math.multiplyExact(lba, sectorSize()), sectorSize());
    }

    /** Closes the files below; an image must not be used afterwards. */
    @Override
    default void close() {
        // images over other images hold nothing of their own
    }
}
