package sectorglass.fat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Map;

import sectorglass.disk.Structure;
import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;
import sectorglass.image.Window;

/**
 * The slots of a directory in one array, each with its place and whether it was read. At most 65536 slots, the limit of the
 * Microsoft FAT specification (Linux: FAT_MAX_DIR_SIZE), plus those of one more cluster.
 */
final class Directory {

    static final int SLOT = 32;
    static final int MOST_SLOTS = 65536;

    private final byte[] bytes;
    private final int[] pieceAt;
    private final long[] pieceStart;
    private final BitSet unread;
    private SectorRanges missing;

    private Directory(byte[] bytes, int[] pieceAt, long[] pieceStart, BitSet unread, SectorRanges missing) {
        this.bytes = bytes;
        this.pieceAt = pieceAt;
        this.pieceStart = pieceStart;
        this.unread = unread;
        this.missing = missing;
    }

    /** The fixed root directory of FAT12 and FAT16. */
    static Directory fixedRoot(VolumeSite site, Geometry geometry) {
        return read(site, new long[] {site.firstByte() + geometry.rootSector() * geometry.sectorBytes()},
                new int[] {Math.min(geometry.rootSlots(), MOST_SLOTS) * SLOT});
    }

    /** The directory whose clusters these are. */
    static Directory of(VolumeSite site, Geometry geometry, Chain chain) {
        int most = MOST_SLOTS * SLOT + geometry.clusterBytes();
        long[] starts = new long[chain.runs()];
        int[] lengths = new int[chain.runs()];
        int total = 0;
        int runs = 0;
        while (runs < chain.runs() && total < most) {
            starts[runs] = site.firstByte() + geometry.clusterByte(chain.first(runs));
            lengths[runs] = (int) Math.min(most - total, (long) chain.count(runs) * geometry.clusterBytes());
            total += lengths[runs++];
        }
        return read(site, Arrays.copyOf(starts, runs), Arrays.copyOf(lengths, runs));
    }

    private static Directory read(VolumeSite site, long[] starts, int[] lengths) {
        int total = Arrays.stream(lengths).sum();
        byte[] bytes = new byte[total];
        int[] at = new int[starts.length];
        BitSet unread = null;
        SectorRanges missing = SectorRanges.EMPTY;
        int offset = 0;
        for (int i = 0; i < starts.length; i++) {
            at[i] = offset;
            SectorStates states = site.image().read(starts[i], bytes, offset, lengths[i]);
            if (!states.isRead(starts[i], lengths[i])) {
                unread = unread == null ? new BitSet() : unread;
                SectorRanges gap = states.missing(starts[i], lengths[i]);
                mark(unread, gap, states.sectorSize(), starts[i], lengths[i], offset);
                missing = missing.union(gap);
            }
            offset += lengths[i];
        }
        return new Directory(bytes, at, starts, unread, missing);
    }

    private static void mark(BitSet unread, SectorRanges gap, int size, long start, int length, int offset) {
        gap.forEach(run -> {
            int from = (int) Math.max(0, run.first() * size - start);
            int to = (int) Math.min(length, run.end() * size - start);
            unread.set((offset + from) / SLOT, (offset + to + SLOT - 1) / SLOT);
        });
    }

    /** Number of slots. */
    int slots() {
        return bytes.length / SLOT;
    }

    /** All slots, 32 bytes each; not to be changed. Slots that were not read hold zeros that mean nothing. */
    byte[] bytes() {
        return bytes;
    }

    /** Whether the slot was read. */
    boolean isRead(int slot) {
        return unread == null || !unread.get(slot);
    }

    /** Whether all slots were read. */
    boolean allRead() {
        return unread == null;
    }

    /** First slot from this one on that was not read, or the number of slots. */
    int nextUnread(int slot) {
        int next = unread == null ? -1 : unread.nextSetBit(slot);
        return next < 0 ? slots() : next;
    }

    /** The sectors that were not read. */
    SectorRanges missing() {
        return missing;
    }

    /** Image byte of a slot's byte. */
    long address(int slot, int offset) {
        int at = slot * SLOT + offset;
        int piece = Arrays.binarySearch(pieceAt, at);
        piece = piece >= 0 ? piece : -piece - 2;
        return pieceStart[piece] + at - pieceAt[piece];
    }

    /** The slot that holds an image byte, or -1. */
    int slotAt(long imageByte) {
        for (int i = 0; i < pieceAt.length; i++) {
            int end = i + 1 < pieceAt.length ? pieceAt[i + 1] : bytes.length;
            if (imageByte >= pieceStart[i] && imageByte < pieceStart[i] + end - pieceAt[i]) {
                return (int) (pieceAt[i] + imageByte - pieceStart[i]) / SLOT;
            }
        }
        return -1;
    }

    /** The slots of the set that this one belongs to: long-name slots and the 8.3 entry after them; first and last. */
    int[] setAt(int slot) {
        int last = slot;
        while (last + 1 < slots() && isLong(last) && last - slot < 20 && deleted(last) == deleted(last + 1)) {
            last++;
        }
        int first = last;
        while (first > 0 && isLong(first - 1) && last - first < 20 && deleted(first - 1) == deleted(last)) {
            first--;
        }
        return new int[] {first, last};
    }

    private boolean isLong(int slot) {
        return u8(slot, 0) != 0 && (u8(slot, 11) & 0x3F) == 0x0F;
    }

    private boolean deleted(int slot) {
        return u8(slot, 0) == 0xE5;
    }

    /** The image bytes from a slot to another as far as they stand together, and a window of them all. */
    Structure structure(String name, int first, int last) {
        List<ByteRange> parts = new ArrayList<>();
        for (int slot = first; slot <= last; slot++) {
            ByteRange here = where(slot, 0, SLOT);
            ByteRange before = parts.isEmpty() ? null : parts.get(parts.size() - 1);
            if (before != null && before.end() == here.start()) {
                parts.set(parts.size() - 1, new ByteRange(before.start(), before.length() + SLOT));
            } else {
                parts.add(here);
            }
        }
        return new Structure(name, "fat_directory", parts.get(0), Map.of(), image -> Window.joined(
                parts.stream().map(part -> image.window(part.start(), (int) part.length())).toList()));
    }

    /** Image bytes of a field of a slot. */
    ByteRange where(int slot, int offset, int length) {
        return new ByteRange(address(slot, offset), length);
    }

    int u8(int slot, int offset) {
        return bytes[slot * SLOT + offset] & 0xFF;
    }

    int u16(int slot, int offset) {
        return u8(slot, offset) | u8(slot, offset + 1) << 8;
    }

    long u32(int slot, int offset) {
        return u16(slot, offset) | (long) u16(slot, offset + 2) << 16;
    }
}
