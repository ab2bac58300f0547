package sectorglass.testvolumes;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.TreeMap;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

/**
 * Bytes or a file as an image for tests, with bytes planted over it and sectors that count as unread: those come back as 0xA5, which no
 * test may take for data. The file itself is never changed.
 */
public final class DiskFile implements SectorImage {

    private static final byte NOT_DATA = (byte) 0xA5;

    private final FileChannel channel;
    private final byte[] whole;
    private final long length;
    private final int sectorSize;
    private final TreeMap<Long, Byte> planted = new TreeMap<>();
    private SectorRanges unread = SectorRanges.EMPTY;

    private DiskFile(FileChannel channel, byte[] whole, long length, int sectorSize) {
        this.channel = channel;
        this.whole = whole;
        this.length = length;
        this.sectorSize = sectorSize;
    }

    /** A file. */
    public static DiskFile open(Path file, int sectorSize) {
        try {
            FileChannel channel = FileChannel.open(file, StandardOpenOption.READ);
            return new DiskFile(channel, null, channel.size(), sectorSize);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** A file with sectors of 512 bytes. */
    public static DiskFile of(Path file) {
        return open(file, 512);
    }

    /** Bytes with sectors of 512 bytes. */
    public static DiskFile of(byte[] bytes) {
        return of(bytes, 512);
    }

    /** Bytes; not copied. */
    public static DiskFile of(byte[] bytes, int sectorSize) {
        return new DiskFile(null, bytes, bytes.length, sectorSize);
    }

    private DiskFile copy() {
        DiskFile copy = new DiskFile(channel, whole, length, sectorSize);
        copy.planted.putAll(planted);
        copy.unread = unread;
        return copy;
    }

    /** Another image, with these sectors unread; both share the file. */
    public DiskFile unread(SectorRanges lost) {
        DiskFile copy = copy();
        copy.unread = unread.union(lost);
        return copy;
    }

    /** Another image, with bits of a byte turned. */
    public DiskFile flip(long at, int mask) {
        byte[] one = new byte[1];
        read(at, one, 0, 1);
        return set(at, (byte) (one[0] ^ mask));
    }

    /** Another image, with another byte. */
    public DiskFile set(long at, byte value) {
        return copy().plant(at, value);
    }

    /** The whole image as one volume's place. */
    public VolumeSite site() {
        return new VolumeSite(this, new SectorRange(0, (length + sectorSize - 1) / sectorSize), null);
    }

    /** Puts bytes at an image byte of this image; values 0 to 255. */
    public DiskFile plant(long at, int... values) {
        for (int i = 0; i < values.length; i++) {
            planted.put(at + i, (byte) values[i]);
        }
        return this;
    }

    /** Puts a number of two bytes, the low one first. */
    public DiskFile plant16(long at, int value) {
        return plant(at, value & 0xFF, value >> 8 & 0xFF);
    }

    /** Puts a number of four bytes, the low one first. */
    public DiskFile plant32(long at, long value) {
        return plant(at, (int) value & 0xFF, (int) (value >> 8) & 0xFF, (int) (value >> 16) & 0xFF, (int) (value >> 24) & 0xFF);
    }

    /** Counts sectors of this image as unread. */
    public DiskFile lose(long first, long count) {
        unread = unread.union(SectorRanges.of(first, count));
        return this;
    }

    @Override
    public String name() {
        return "test";
    }

    @Override
    public int sectorSize() {
        return sectorSize;
    }

    @Override
    public long bytes() {
        return length;
    }

    @Override
    public SectorStates read(long firstByte, byte[] into, int offset, int count) {
        Arrays.fill(into, offset, offset + count, (byte) 0);
        int there = (int) Math.max(0, Math.min(count, length - firstByte));
        if (there > 0) {
            fetch(firstByte, into, offset, there);
            planted.subMap(firstByte, firstByte + there).forEach((at, value) -> into[(int) (offset + at - firstByte)] = value);
        }
        long first = firstByte / sectorSize;
        int sectors = count == 0 ? 0 : (int) ((firstByte + count - 1) / sectorSize - first + 1);
        SectorRange run = new SectorRange(first, sectors);
        if (firstByte + count <= length && !unread.intersects(run)) {
            return SectorStates.allRead(sectorSize, firstByte, count);
        }
        ReadState[] states = new ReadState[sectors];
        for (int i = 0; i < sectors; i++) {
            states[i] = state(first + i);
            long from = Math.max(firstByte, (first + i) * sectorSize);
            if (states[i] != ReadState.READ) {
                Arrays.fill(into, (int) (offset + from - firstByte),
                        (int) (offset + Math.min(firstByte + count, (first + i + 1) * sectorSize) - firstByte), NOT_DATA);
            }
        }
        return SectorStates.of(sectorSize, first, states);
    }

    private void fetch(long at, byte[] into, int offset, int count) {
        if (whole != null) {
            System.arraycopy(whole, (int) at, into, offset, count);
            return;
        }
        try {
            ByteBuffer buffer = ByteBuffer.wrap(into, offset, count);
            while (buffer.hasRemaining() && channel.read(buffer, at + buffer.position() - offset) > 0) {
                continue;
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public ReadState state(long lba) {
        return lba >= 0 && lba < sectors() && !unread.contains(lba) ? ReadState.READ : ReadState.UNREAD;
    }

    @Override
    public SectorRanges inState(ReadState state, SectorRange within) {
        SectorRanges read = SectorRanges.of(within).intersect(SectorRanges.of(0, sectors())).minus(unread);
        return state == ReadState.READ ? read : state == ReadState.UNREAD ? SectorRanges.of(within).minus(read) : SectorRanges.EMPTY;
    }

    @Override
    public void close() {
        try {
            if (channel != null) {
                channel.close();
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
