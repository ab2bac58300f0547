package sectorglass.ntfs;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;

import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;

/** An image held in memory, some sectors of which may count as unread. */
final class MemoryImage implements SectorImage {
    final byte[] bytes;
    private final int sectorSize;
    private final SectorRanges unread;

    MemoryImage(byte[] bytes, int sectorSize, SectorRanges unread) {
        this.bytes = bytes;
        this.sectorSize = sectorSize;
        this.unread = unread;
    }

    static MemoryImage of(byte[] bytes) {
        return new MemoryImage(bytes, 512, SectorRanges.EMPTY);
    }

    static MemoryImage of(Path file) {
        try {
            return of(Files.readAllBytes(file));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    MemoryImage without(SectorRanges sectors) {
        return new MemoryImage(bytes, sectorSize, sectors);
    }

    /** A copy with bytes changed. */
    MemoryImage with(long at, int... values) {
        byte[] copy = bytes.clone();
        for (int i = 0; i < values.length; i++) {
            copy[(int) at + i] = (byte) values[i];
        }
        return new MemoryImage(copy, sectorSize, unread);
    }

    @Override
    public String name() {
        return "memory";
    }

    @Override
    public int sectorSize() {
        return sectorSize;
    }

    @Override
    public long bytes() {
        return bytes.length;
    }

    @Override
    public SectorStates read(long firstByte, byte[] into, int offset, int length) {
        if (unread.isEmpty() && firstByte + length <= bytes.length) {
            System.arraycopy(bytes, (int) firstByte, into, offset, length);
            return SectorStates.allRead(sectorSize, firstByte, length);
        }
        long first = firstByte / sectorSize;
        int count = length == 0 ? 0 : (int) ((firstByte + length - 1) / sectorSize - first + 1);
        ReadState[] states = new ReadState[count];
        for (int i = 0; i < count; i++) {
            states[i] = state(first + i);
            long from = Math.max(firstByte, (first + i) * sectorSize);
            long to = Math.min(firstByte + length, (first + i + 1) * sectorSize);
            boolean read = states[i] == ReadState.READ;
            for (long at = from; at < to; at++) {
                into[(int) (offset + at - firstByte)] = read ? bytes[(int) at] : 0;
            }
        }
        return SectorStates.of(sectorSize, first, states);
    }

    @Override
    public ReadState state(long lba) {
        return lba < 0 || lba >= sectors() || unread.contains(lba) ? ReadState.UNREAD : ReadState.READ;
    }

    @Override
    public SectorRanges inState(ReadState state, SectorRange within) {
        SectorRanges inside = SectorRanges.of(all()).intersect(within).minus(unread);
        return switch (state) {
            case READ -> inside;
            case UNREAD -> SectorRanges.of(within).minus(inside);
            default -> SectorRanges.EMPTY;
        };
    }
}
