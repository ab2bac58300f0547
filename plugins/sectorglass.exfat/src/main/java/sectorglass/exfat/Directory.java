package sectorglass.exfat;

import java.util.BitSet;
import java.util.Map;

import sectorglass.disk.Structure;
import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;

/**
 * The slots of a directory in one array, each with its place and whether it was read. Read up to the end of its chain, or to the
 * 256 MiB that the specification allows (section 7.6.7).
 */
final class Directory {

    static final int SLOT = 32;
    static final long MOST_BYTES = 256L << 20;
    private static final int MOST_REUSED = 1 << 20;

    private final Stretch stretch;
    private final byte[] bytes;
    private final int slots;
    private final BitSet gaps;

    private Directory(Stretch stretch, byte[] bytes, int slots, BitSet gaps) {
        this.stretch = stretch;
        this.bytes = bytes;
        this.slots = slots;
        this.gaps = gaps;
    }

    /** The directory whose clusters these are. */
    static Directory of(VolumeSite site, Geometry geometry, Chain chain, long mostBytes) {
        return of(site, geometry, chain, mostBytes, null);
    }

    /**
     * The same, into the array of another directory where that is long enough and not longer than is sensible to hold.
     *
     * @param before a directory that nobody asks any more, or null
     */
    static Directory of(VolumeSite site, Geometry geometry, Chain chain, long mostBytes, Directory before) {
        // more than the whole image is a false claim, and most of it would be zeros
        long sensible = Math.min(MOST_BYTES, Math.max(geometry.clusterBytes(), site.image().bytes()));
        Stretch stretch = Stretch.of(site, geometry, chain, Math.min(mostBytes, sensible));
        int length = (int) stretch.length() / SLOT * SLOT;
        byte[] bytes = before != null && before.bytes.length >= length && before.bytes.length <= MOST_REUSED ? before.bytes
                : new byte[length];
        return new Directory(stretch, bytes, length / SLOT, stretch.read(0, bytes, length));
    }

    int slots() {
        return slots;
    }

    /** The slots from index 0 on, perhaps more after them; not to be changed. What was not read is zero and means nothing. */
    byte[] bytes() {
        return bytes;
    }

    boolean isRead(int slot) {
        return gaps == null || !gaps.get(slot * SLOT);
    }

    boolean allRead() {
        return gaps == null;
    }

    /** Whether all these slots were read. */
    boolean isRead(int slot, int count) {
        if (gaps == null) {
            return true;
        }
        int next = gaps.nextSetBit(slot * SLOT);
        return next < 0 || next >= (slot + count) * SLOT;
    }

    /** First slot from this one on that was not read, or the number of slots. */
    int nextUnread(int slot) {
        int next = gaps == null ? -1 : gaps.nextSetBit(slot * SLOT);
        return next < 0 ? slots() : next / SLOT;
    }

    /** The sectors under these slots that were not read. */
    SectorRanges missing(int slot, int count) {
        return stretch.missing((long) slot * SLOT, (long) count * SLOT);
    }

    /** All sectors that were not read. */
    SectorRanges missing() {
        return gaps == null ? SectorRanges.EMPTY : stretch.missing(0, (long) slots * SLOT);
    }

    long address(int slot, int offset) {
        return stretch.address((long) slot * SLOT + offset);
    }

    ByteRange where(int slot, int offset, int length) {
        return stretch.where((long) slot * SLOT + offset, length);
    }

    /** The slot that holds an image byte, or -1. */
    int slotAt(long imageByte) {
        long offset = stretch.offsetOf(imageByte);
        return offset < 0 || offset >= (long) slots * SLOT ? -1 : (int) (offset / SLOT);
    }

    /** A structure of neighbouring slots. */
    Structure structure(String name, int slot, int count) {
        long at = (long) slot * SLOT;
        return new Structure(name, "exfat_directory", stretch.where(at, (long) count * SLOT), Map.of(), image -> window(slot, count));
    }

    Window window(int slot, int count) {
        return stretch.window((long) slot * SLOT, count * SLOT);
    }

    /** The set a slot belongs to: its first slot and the number of slots. */
    int[] setAt(int slot) {
        int first = slot;
        while (first > 0 && (u8(first, 0) & 0x40) != 0 && slot - first < 255) {
            first--;
        }
        int type = u8(first, 0) & 0x7F;
        int secondaries = (type == 0x05 || type == 0x20) ? u8(first, 1) : 0;
        int count = Math.min(1 + secondaries, slots() - first);
        return slot < first + count ? new int[] {first, count} : new int[] {slot, 1};
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

    long u64(int slot, int offset) {
        return u32(slot, offset) | u32(slot, offset + 4) << 32;
    }
}
