package sectorglass.partition.gpt;

import java.util.ArrayList;
import java.util.List;
import java.util.zip.CRC32;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRanges;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/**
 * An entry array as a header describes it; all four values are claims.
 *
 * @param lba PartitionEntryLBA, unsigned
 * @param count NumberOfPartitionEntries
 * @param size SizeOfPartitionEntry, bytes
 * @param sectorSize bytes per sector
 */
record GptEntries(long lba, long count, long size, int sectorSize) {
    /** An array of more bytes is not read; 128 entries of 128 bytes take 16 KiB. */
    static final long MAX_BYTES = 32L << 20;
    private static final int CHUNK = 1 << 16;

    boolean sizeLegal() {
        return size >= GptEntry.FIELDS && (size & size - 1) == 0;
    }

    /** Bytes of the array, slack in the last sector left out. */
    long bytes() {
        return count * size;
    }

    /** Whether the array can be read as entries: some bytes, not absurdly many, and an address that has a byte. */
    boolean readable() {
        return count > 0 && size >= GptEntry.FIELDS && size % 8 == 0 && bytes() <= MAX_BYTES
                && Long.compareUnsigned(lba, (1L << 50)) < 0;
    }

    long firstByte() {
        return lba * sectorSize;
    }

    /** Sectors the array touches. */
    long sectors() {
        return (bytes() + sectorSize - 1) / sectorSize;
    }

    ByteRange where() {
        return new ByteRange(firstByte(), bytes());
    }

    /** CRC-32 of the array; throws {@link UnreadException} with all of its sectors that were not read. */
    long crc(SectorImage image) {
        return crc(image, firstByte());
    }

    /** The same of an array that stands at another byte. */
    long crc(SectorImage image, long firstByte) {
        CRC32 crc = new CRC32();
        SectorRanges missing = SectorRanges.EMPTY;
        for (long at = 0; at < bytes(); at += CHUNK) {
            Window part = image.window(firstByte + at, (int) Math.min(CHUNK, bytes() - at));
            if (part.isRead(0, part.length())) {
                crc.update(part.raw(0, part.length()));
            } else {
                missing = missing.union(part.missing(0, part.length()));
            }
        }
        if (!missing.isEmpty()) {
            throw new UnreadException(missing);
        }
        return crc.getValue();
    }

    /** The entries that were read and are not all zero, by index. */
    List<GptEntry> list(SectorImage image) {
        List<GptEntry> found = new ArrayList<>();
        long perChunk = Math.max(1, CHUNK / size);
        for (long start = 0; start < count; start += perChunk) {
            int here = (int) Math.min(perChunk, count - start);
            Window part = image.window(firstByte() + start * size, (int) (here * size));
            for (int i = 0; i < here; i++) {
                int at = (int) (i * size);
                if (part.isRead(at, (int) size) && !part.filled(at, (int) size, 0)) {
                    found.add(new GptEntry((int) (start + i + 1), part.sub(at, (int) size)));
                }
            }
        }
        return found;
    }

    /** Sectors of the array that were not read. */
    SectorRanges missing(SectorImage image) {
        Window all = image.window(firstByte(), (int) bytes());
        return all.missing(0, all.length());
    }
}
