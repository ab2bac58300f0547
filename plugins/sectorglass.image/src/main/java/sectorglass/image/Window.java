package sectorglass.image;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/**
 * Bytes of an image with their addresses and read states. All typed getters take an offset from the start of the window, check that
 * the bytes were read, and throw {@link UnreadException} with exactly the missing sectors where they were not. An offset outside the
 * window is a mistake of the caller: {@link IndexOutOfBoundsException}.
 *
 * <p>A window is usually one piece of the image; {@link #joined} puts pieces together (a record whose clusters are apart), and
 * {@link #address} then tells the image byte of each offset.
 */
public final class Window {
    private final byte[] bytes;
    private final int offset;
    private final int length;
    private final List<Piece> pieces;
    private final List<Patch> patches;
    /** Whether it is known that all bytes were read: the usual case, answered without a look at the pieces. */
    private final boolean allRead;

    /** A piece: {@code at} is its first offset in the array. */
    private record Piece(int at, int length, long start, SectorStates states) { }

    /**
     * A window over one piece of an image.
     *
     * @param bytes the bytes; not copied, not to be changed afterwards
     * @param start image byte of the first one
     * @param states states of all sectors that hold one of the bytes
     */
    public Window(byte[] bytes, long start, SectorStates states) {
        this(bytes, 0, bytes.length, List.of(new Piece(0, bytes.length, start, states)), List.of(),
                states.allRead() && states.isRead(start, bytes.length));
    }

    private Window(byte[] bytes, int offset, int length, List<Piece> pieces, List<Patch> patches, boolean allRead) {
        this.bytes = bytes;
        this.offset = offset;
        this.length = length;
        this.pieces = pieces;
        this.patches = patches;
        this.allRead = allRead;
    }

    /** Bytes that were all read, at an image byte: for tests and for content that comes from elsewhere. */
    public static Window ofRead(byte[] bytes, long start, int sectorSize) {
        return new Window(bytes, start, SectorStates.allRead(sectorSize, start, bytes.length));
    }

    /** The windows one after the other; each keeps its addresses, states and patches. */
    public static Window joined(List<Window> parts) {
        if (parts.size() == 1) {
            return parts.get(0);
        }
        int total = 0;
        for (Window part : parts) {
            total = Math.addExact(total, part.length);
        }
        byte[] all = new byte[total];
        List<Piece> pieces = new ArrayList<>();
        List<Patch> patches = new ArrayList<>();
        int at = 0;
        for (Window part : parts) {
            System.arraycopy(part.bytes, part.offset, all, at, part.length);
            for (Piece piece : part.pieces) {
                int from = Math.max(piece.at, part.offset);
                int to = Math.min(piece.at + piece.length, part.offset + part.length);
                if (to > from) {
                    pieces.add(new Piece(at + from - part.offset, to - from, piece.start + from - piece.at, piece.states));
                }
            }
            patches.addAll(part.patches);
            at += part.length;
        }
        return new Window(all, 0, total, List.copyOf(pieces), List.copyOf(patches), parts.stream().allMatch(part -> part.allRead));
    }

    /** Number of bytes. */
    public int length() {
        return length;
    }

    /** Image byte of the first byte. */
    public long start() {
        return address(0);
    }

    /** The image bytes from the first to the last; where pieces were joined, those of the first piece only. */
    public ByteRange range() {
        Piece piece = piece(0);
        return new ByteRange(address(0), Math.min(length, piece.at + piece.length - offset));
    }

    /** Whether all bytes stand one after the other in the image. */
    public boolean contiguous() {
        return pieces.size() == 1;
    }

    /** Bytes per sector of the image. */
    public int sectorSize() {
        return pieces.isEmpty() ? 512 : pieces.get(0).states.sectorSize();
    }

    /**
     * Image byte of an offset.
     *
     * @param at 0 to {@link #length()}; the end is the byte after the last one
     */
    public long address(int at) {
        if (at < 0 || at > length) {
            throw new IndexOutOfBoundsException("offset " + at + " in a window of " + length);
        }
        Piece piece = piece(at);
        return piece.start + (offset + at - piece.at);
    }

    /** LBA of the sector that holds the offset. */
    public long lba(int at) {
        return address(at) / sectorSize();
    }

    /** The image bytes of a field; where it lies on two pieces, its part on the first. */
    public ByteRange range(int at, int count) {
        check(at, count);
        Piece piece = piece(at);
        return new ByteRange(address(at), Math.min(count, piece.at + piece.length - offset - at));
    }

    private Piece piece(int at) {
        int index = offset + at;
        Piece found = pieces.get(pieces.size() - 1);
        if (pieces.size() > 1) {
            for (Piece piece : pieces) {
                if (index < piece.at + piece.length) {
                    return piece;
                }
            }
        }
        return found;
    }

    /** Whether all of these bytes were read, or stand in a patch over whole sectors. */
    public boolean isRead(int at, int count) {
        check(at, count);
        if (allRead) {
            return true;
        }
        for (Piece piece : pieces) {
            int from = Math.max(piece.at, offset + at);
            int to = Math.min(piece.at + piece.length, offset + at + count);
            if (to > from && !piece.states.isRead(piece.start + from - piece.at, to - from)) {
                return false;
            }
        }
        return true;
    }

    /** The sectors under these bytes that were not read. */
    public SectorRanges missing(int at, int count) {
        check(at, count);
        SectorRanges all = SectorRanges.EMPTY;
        for (Piece piece : pieces) {
            int from = Math.max(piece.at, offset + at);
            int to = Math.min(piece.at + piece.length, offset + at + count);
            if (to > from) {
                SectorRanges part = piece.states.missing(piece.start + from - piece.at, to - from);
                all = all.isEmpty() ? part : all.union(part);
            }
        }
        return all;
    }

    /** Read state of the sector that holds the offset. */
    public ReadState state(int at) {
        check(at, 1);
        Piece piece = piece(at);
        return piece.states.at(address(at) / piece.states.sectorSize());
    }

    /** @throws UnreadException unless all of these bytes were read */
    public void require(int at, int count) {
        if (!isRead(at, count)) {
            throw new UnreadException(missing(at, count));
        }
    }

    private void check(int at, int count) {
        if (at < 0 || count < 0 || at > length - count) {
            throw new IndexOutOfBoundsException("offset " + at + ", " + count + " bytes in a window of " + length);
        }
    }

    /** Part of the window; shares the bytes. */
    public Window sub(int at, int count) {
        check(at, count);
        return new Window(bytes, offset + at, count, pieces, patches, allRead);
    }

    /**
     * The window with bytes put over it. Patches that lie outside change nothing. A sector that patches of one call cover
     * whole counts as read from then on; other sectors keep their state.
     */
    public Window with(List<Patch> over) {
        return with(over, null);
    }

    /** The same with the sectors given that count as read because patches cover them whole; null: those that these patches cover. */
    Window with(List<Patch> over, SectorRanges whole) {
        byte[] copy = new byte[length];
        System.arraycopy(bytes, offset, copy, 0, length);
        List<Piece> moved = new ArrayList<>();
        for (Piece piece : pieces) {
            int from = Math.max(piece.at, offset);
            int to = Math.min(piece.at + piece.length, offset + length);
            if (to <= from) {
                continue;
            }
            long start = piece.start + from - piece.at;
            ByteRange here = new ByteRange(start, to - from);
            SectorRanges covered = whole != null ? whole : Patch.wholeSectors(over, piece.states.sectorSize());
            for (Patch patch : over) {
                if (!patch.range().overlaps(here)) {
                    continue;
                }
                long first = Math.max(start, patch.start());
                long end = Math.min(here.end(), patch.range().end());
                System.arraycopy(patch.bytes(), (int) (first - patch.start()), copy, (int) (from - offset + first - start),
                        (int) (end - first));
            }
            moved.add(new Piece(from - offset, to - from, start, piece.states.with(covered, ReadState.READ)));
        }
        List<Patch> all = new ArrayList<>(patches);
        all.addAll(over);
        return new Window(copy, 0, length, List.copyOf(moved), List.copyOf(all), allRead);
    }

    /** The patches that lie over this byte, the topmost last. */
    public List<Patch> patchesAt(int at) {
        if (patches.isEmpty()) {
            return patches;
        }
        long address = address(at);
        return patches.stream().filter(patch -> patch.range().contains(address)).toList();
    }

    /** All patches put over the window or over one it was cut from. */
    public List<Patch> patches() {
        return patches;
    }

    /** Unsigned byte, 0 to 255. */
    public int u8(int at) {
        require(at, 1);
        return bytes[offset + at] & 0xFF;
    }

    /** Unsigned 16 bit, little endian. */
    public int u16le(int at) {
        require(at, 2);
        return raw(at) | raw(at + 1) << 8;
    }

    /** Unsigned 16 bit, big endian. */
    public int u16be(int at) {
        require(at, 2);
        return raw(at) << 8 | raw(at + 1);
    }

    /** Unsigned 32 bit, little endian. */
    public long u32le(int at) {
        require(at, 4);
        return (raw(at) | raw(at + 1) << 8 | raw(at + 2) << 16 | (long) raw(at + 3) << 24) & 0xFFFFFFFFL;
    }

    /** Unsigned 32 bit, big endian. */
    public long u32be(int at) {
        require(at, 4);
        return ((long) raw(at) << 24 | raw(at + 1) << 16 | raw(at + 2) << 8 | raw(at + 3)) & 0xFFFFFFFFL;
    }

    /** 64 bit, little endian; unsigned values above {@link Long#MAX_VALUE} come out negative: compare with {@link Long#compareUnsigned}. */
    public long u64le(int at) {
        require(at, 8);
        return u32le(at) | u32le(at + 4) << 32;
    }

    /** 64 bit, big endian; see {@link #u64le}. */
    public long u64be(int at) {
        require(at, 8);
        return u32be(at) << 32 | u32be(at + 4);
    }

    /** A copy of the bytes. */
    public byte[] bytes(int at, int count) {
        require(at, count);
        return raw(at, count);
    }

    /** A copy of the bytes whether they were read or not; the caller has asked {@link #isRead} or treats them as no data. */
    public byte[] raw(int at, int count) {
        check(at, count);
        byte[] copy = new byte[count];
        System.arraycopy(bytes, offset + at, copy, 0, count);
        return copy;
    }

    private int raw(int at) {
        return bytes[offset + at] & 0xFF;
    }

    /** Text in the character set; damaged sequences become U+FFFD. */
    public String text(int at, int count, Charset charset) {
        require(at, count);
        return new String(bytes, offset + at, count, charset);
    }

    /** Text of one byte per character, as ISO 8859-1. */
    public String ascii(int at, int count) {
        return text(at, count, StandardCharsets.ISO_8859_1);
    }

    /** UTF-16LE text of a number of code units, kept as they are: unpaired surrogates stay. */
    public String utf16le(int at, int units) {
        require(at, units * 2);
        char[] chars = new char[units];
        for (int i = 0; i < units; i++) {
            chars[i] = (char) (raw(at + 2 * i) | raw(at + 2 * i + 1) << 8);
        }
        return new String(chars);
    }

    /** Whether the bytes stand here; {@code values} are 0 to 255. */
    public boolean matches(int at, int... values) {
        require(at, values.length);
        for (int i = 0; i < values.length; i++) {
            if (raw(at + i) != values[i]) {
                return false;
            }
        }
        return true;
    }

    /** Whether the characters stand here as ISO 8859-1. */
    public boolean matches(int at, String text) {
        return ascii(at, text.length()).equals(text);
    }

    /** Whether all of these bytes have the value. */
    public boolean filled(int at, int count, int value) {
        require(at, count);
        for (int i = at; i < at + count; i++) {
            if (raw(i) != value) {
                return false;
            }
        }
        return true;
    }
}
