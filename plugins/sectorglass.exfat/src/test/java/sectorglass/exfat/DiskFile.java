package sectorglass.exfat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.TreeMap;

import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

/** An image file for tests, with bytes planted over it and sectors that count as unread. The file itself is never changed. */
final class DiskFile implements SectorImage {

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

    static DiskFile open(Path file, int sectorSize) {
        try {
            FileChannel channel = FileChannel.open(file, StandardOpenOption.READ);
            return new DiskFile(channel, null, channel.size(), sectorSize);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static DiskFile of(byte[] bytes, int sectorSize) {
        return new DiskFile(null, bytes, bytes.length, sectorSize);
    }

    /** Puts bytes at an image byte; values 0 to 255. */
    DiskFile plant(long at, int... values) {
        for (int i = 0; i < values.length; i++) {
            planted.put(at + i, (byte) values[i]);
        }
        return this;
    }

    DiskFile plant16(long at, int value) {
        return plant(at, value & 0xFF, value >> 8 & 0xFF);
    }

    DiskFile plant32(long at, long value) {
        return plant(at, (int) value & 0xFF, (int) (value >> 8) & 0xFF, (int) (value >> 16) & 0xFF, (int) (value >> 24) & 0xFF);
    }

    /** Counts the sectors as unread. */
    DiskFile lose(long first, long count) {
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
                        (int) (offset + Math.min(firstByte + count, (first + i + 1) * sectorSize) - firstByte), (byte) 0);
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
}
