package sectorglass.image;

import java.util.OptionalLong;

/**
 * How the bytes of a disk lie in the bytes of its files.
 *
 * <p>Stored bytes: {@code header} foreign ones, then sectors of {@code storedSector} bytes each, of which {@code payloadLength} from
 * {@code payloadOffset} on are the disk's, then {@code trailer} foreign ones.
 *
 * @param header stored bytes before the first sector
 * @param trailer stored bytes behind the last sector
 * @param firstImageByte image byte of the first payload byte: more than 0 where the files begin in the middle of the disk, such as at a
 *     partition; the image bytes before it are unread
 * @param storedSector stored bytes per sector
 * @param payloadOffset of the disk's bytes in a stored sector
 * @param payloadLength number of the disk's bytes in a stored sector; equal to {@code storedSector} where nothing is between sectors
 * @param swapped whether the two bytes of each 16-bit word are exchanged
 */
public record DumpForm(long header, long trailer, long firstImageByte, int storedSector, int payloadOffset, int payloadLength,
        boolean swapped) {

    /** The files hold the disk as it is. */
    public static final DumpForm PLAIN = new DumpForm(0, 0, 0, 512, 0, 512, false);

    /** Most bytes of a stored sector. */
    public static final int LARGEST_SECTOR = 1 << 16;

    /** @throws IllegalArgumentException for negative values, a payload that leaves its sector, or a first byte that splits a word */
    public DumpForm {
        if (header < 0 || trailer < 0 || firstImageByte < 0 || storedSector < 1 || storedSector > LARGEST_SECTOR || payloadOffset < 0
                || payloadLength < 1 || payloadOffset > storedSector - payloadLength || header > Long.MAX_VALUE - trailer
                || swapped && ((firstImageByte | payloadLength) & 1) != 0) {
            throw new IllegalArgumentException("header=" + header + " trailer=" + trailer + " firstImageByte=" + firstImageByte
                    + " storedSector=" + storedSector + " payloadOffset=" + payloadOffset + " payloadLength=" + payloadLength);
        }
    }

    /** Foreign bytes before the first sector. */
    public DumpForm withHeader(long bytes) {
        return new DumpForm(bytes, trailer, firstImageByte, storedSector, payloadOffset, payloadLength, swapped);
    }

    /** Foreign bytes behind the last sector. */
    public DumpForm withTrailer(long bytes) {
        return new DumpForm(header, bytes, firstImageByte, storedSector, payloadOffset, payloadLength, swapped);
    }

    /** Where on the disk the files begin. */
    public DumpForm withFirstImageByte(long imageByte) {
        return new DumpForm(header, trailer, imageByte, storedSector, payloadOffset, payloadLength, swapped);
    }

    /** Stored bytes per sector and the disk's bytes in them. */
    public DumpForm withSectors(int stored, int offset, int length) {
        return new DumpForm(header, trailer, firstImageByte, stored, offset, length, swapped);
    }

    /** With the bytes of each 16-bit word exchanged, or not. */
    public DumpForm withSwapped(boolean exchanged) {
        return new DumpForm(header, trailer, firstImageByte, storedSector, payloadOffset, payloadLength, exchanged);
    }

    /** Whether the files hold the disk as it is. */
    public boolean plain() {
        return header == 0 && trailer == 0 && firstImageByte == 0 && contiguous() && !swapped;
    }

    /** The form as the option {@code --dump-form} takes it; empty for the plain one. */
    public String keys() {
        StringBuilder keys = new StringBuilder();
        key(keys, "header", header, 0);
        key(keys, "trailer", trailer, 0);
        key(keys, "first", firstImageByte, 0);
        key(keys, "stored", storedSector, PLAIN.storedSector);
        key(keys, "offset", payloadOffset, 0);
        key(keys, "length", payloadLength, storedSector - payloadOffset);
        return keys.append(swapped ? (keys.length() == 0 ? "" : ",") + "swapped=yes" : "").toString();
    }

    private static void key(StringBuilder keys, String name, long value, long usual) {
        if (value != usual) {
            keys.append(keys.length() == 0 ? "" : ",").append(name).append('=').append(value);
        }
    }

    /** Whether nothing lies between the sectors. */
    public boolean contiguous() {
        return payloadLength == storedSector;
    }

    /**
     * Length of the image.
     *
     * @param stored number of stored bytes
     */
    public long imageBytes(long stored) {
        return firstImageByte + payload(Math.max(0, stored - header - trailer));
    }

    /** Number of payload bytes in so many bytes behind the header. */
    private long payload(long bytes) {
        return contiguous() ? bytes : bytes / storedSector * payloadLength
                + Math.max(0, Math.min(payloadLength, bytes % storedSector - payloadOffset));
    }

    /** Stored byte of an image byte, whether the files reach so far or not; nothing for one before the files begin. */
    public OptionalLong stored(long imageByte) {
        if (imageByte < firstImageByte) {
            return OptionalLong.empty();
        }
        long at = imageByte - firstImageByte ^ (swapped ? 1 : 0);
        return OptionalLong.of(header + (contiguous() ? at : at / payloadLength * storedSector + payloadOffset + at % payloadLength));
    }

    /** The smallest range of image bytes that holds all payload bytes among these stored bytes. */
    public ByteRange image(ByteRange stored) {
        long from = payload(Math.max(0, stored.start() - header));
        long to = payload(Math.max(0, stored.end() - header));
        if (swapped) {
            from &= ~1;
            to += to & 1;
        }
        return new ByteRange(firstImageByte + from, to - from);
    }

    /**
     * What speaks for a form.
     *
     * @param form the form
     * @param weight as in {@link SectorSizeClue.Clue}
     * @param reason in words, with the bytes where it was seen
     */
    public record Clue(DumpForm form, int weight, String reason) { }
}
