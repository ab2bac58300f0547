package sectorglass.volumes;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.HashMap;
import java.util.Map;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

/** Bytes or a file as an image, some sectors of it unread: those come back as 0xA5, which no test may take for data. */
final class TestImage implements SectorImage {
    private final byte[] bytes;
    private final FileChannel file;
    private final long length;
    private final SectorRanges unread;
    /** Bytes that stand elsewhere than in the file. */
    private final Map<Long, Byte> changed;

    private TestImage(byte[] bytes, FileChannel file, long length, SectorRanges unread, Map<Long, Byte> changed) {
        this.changed = changed;
        this.bytes = bytes;
        this.file = file;
        this.length = length;
        this.unread = unread;
    }

    static TestImage of(byte[] bytes) {
        return new TestImage(bytes, null, bytes.length, SectorRanges.EMPTY, Map.of());
    }

    static TestImage of(Path path) {
        try {
            FileChannel channel = FileChannel.open(path, StandardOpenOption.READ);
            return new TestImage(null, channel, channel.size(), SectorRanges.EMPTY, Map.of());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    TestImage unread(SectorRanges lost) {
        return new TestImage(bytes, file, length, unread.union(lost), changed);
    }

    /** The same with bits of a byte turned. */
    TestImage flip(long at, int mask) {
        byte[] one = new byte[1];
        read(at, one, 0, 1);
        return set(at, (byte) (one[0] ^ mask));
    }

    /** The same with another byte. */
    TestImage set(long at, byte value) {
        Map<Long, Byte> more = new HashMap<>(changed);
        more.put(at, value);
        return new TestImage(bytes, file, length, unread, more);
    }

    @Override
    public void close() {
        try {
            if (file != null) {
                file.close();
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The whole image as one volume's place. */
    VolumeSite site() {
        return new VolumeSite(this, new SectorRange(0, (length + 511) / 512), null);
    }

    @Override
    public String name() {
        return "test";
    }

    @Override
    public int sectorSize() {
        return 512;
    }

    @Override
    public long bytes() {
        return length;
    }

    @Override
    public SectorStates read(long firstByte, byte[] into, int offset, int count) {
        long first = firstByte / 512;
        int sectors = count == 0 ? 0 : (int) ((firstByte + count - 1) / 512 - first + 1);
        ReadState[] states = new ReadState[sectors];
        for (int i = 0; i < sectors; i++) {
            states[i] = state(first + i);
        }
        int there = (int) Math.max(0, Math.min(count, length - firstByte));
        try {
            if (bytes != null) {
                if (there > 0) {
                    System.arraycopy(bytes, (int) firstByte, into, offset, there);
                }
            } else {
                ByteBuffer buffer = ByteBuffer.wrap(into, offset, there);
                while (buffer.hasRemaining() && file.read(buffer, firstByte + buffer.position() - offset) >= 0) {
                    continue;
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        changed.forEach((at, value) -> {
            if (at >= firstByte && at < firstByte + count) {
                into[(int) (offset + at - firstByte)] = value;
            }
        });
        for (int i = 0; i < count; i++) {
            if (states[(int) ((firstByte + i) / 512 - first)] != ReadState.READ) {
                into[offset + i] = (byte) 0xA5;
            }
        }
        return SectorStates.of(512, first, states);
    }

    @Override
    public ReadState state(long lba) {
        return unread.contains(lba) || lba >= (length + 511) / 512 ? ReadState.UNREAD : ReadState.READ;
    }

    @Override
    public SectorRanges inState(ReadState state, SectorRange within) {
        SectorRanges inside = SectorRanges.of(0, (length + 511) / 512).minus(unread).intersect(within);
        return state == ReadState.READ ? inside : state == ReadState.UNREAD ? SectorRanges.of(within).minus(inside) : SectorRanges.EMPTY;
    }
}
