package sectorglass.ntfs;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;

import sectorglass.image.SectorStates;

/**
 * A file record or index block over a byte array, with its update sequence undone in place. Every 512 bytes ("stride") end in a mark
 * that must equal the block's update sequence number; the real two bytes stand in an array in the block's head. A stride whose mark
 * differs was torn: it stays as it is and counts as untrusted. A stride whose sector was not read counts as untrusted, too.
 *
 * <p>One instance is loaded again and again; it makes no objects. Offsets are in bytes from the first byte of the block. Sources: Linux
 * kernel fs/ntfs3/ntfs.h (NTFS_RECORD_HEADER); NTFS-3G libntfs-3g/mst.c.
 */
class FixedBlock {
    /** Bytes protected by one mark, whatever the sector size (NTFS-3G mst.c, NTFS_BLOCK_SIZE). */
    static final int STRIDE = 512;
    static final int MAX_BYTES = 65536;
    static final int FIXUP_OFFSET = 0x04;       // u16
    static final int FIXUP_COUNT = 0x06;        // u16
    static final int FILE = 0x454C4946;         // "FILE"
    static final int INDX = 0x58444E49;         // "INDX"
    static final int BAAD = 0x44414142;         // "BAAD"

    private static final VarHandle U16 = MethodHandles.byteArrayViewVarHandle(short[].class, ByteOrder.LITTLE_ENDIAN);
    private static final VarHandle U32 = MethodHandles.byteArrayViewVarHandle(int[].class, ByteOrder.LITTLE_ENDIAN);
    private static final VarHandle U64 = MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.LITTLE_ENDIAN);

    /** How undoing the update sequence went. */
    enum Fix {
        /** All marks of the strides that were read are right. */
        GOOD,
        /** Some mark is wrong. */
        TORN,
        /** Offset or count of the update sequence are illegal; nothing was undone. */
        BAD_HEADER,
        /** The first stride was not read. */
        UNREAD
    }

    byte[] bytes;
    int start;
    int size;
    private boolean whole;
    private Fix fix = Fix.UNREAD;
    private final long[] unread = new long[MAX_BYTES / STRIDE / 64];
    private final long[] torn = new long[MAX_BYTES / STRIDE / 64];

    /**
     * Takes a block and undoes its update sequence in the array.
     *
     * @param array holds the stored bytes; changed
     * @param at index of the block's first byte
     * @param length bytes of the block, a multiple of 512, at most 65536
     * @param states read states of the sectors below, or null where all were read
     * @param address image byte of the first byte
     */
    final void load(byte[] array, int at, int length, SectorStates states, long address) {
        begin(array, at, length);
        if (states != null && !states.allRead()) {
            markUnread(0, length, states, address);
        }
        finish();
    }

    /** Takes a block that lies in several pieces: {@link #markUnread} for each, then {@link #finish}. */
    final void begin(byte[] array, int at, int length) {
        bytes = array;
        start = at;
        size = length;
        whole = true;
        for (int i = 0; i < unread.length; i++) {
            unread[i] = 0;
            torn[i] = 0;
        }
    }

    /** Undoes the update sequence. */
    final void finish() {
        fix = undo();
    }

    /** Marks the strides of a piece whose sectors were not read. */
    final void markUnread(int from, int length, SectorStates states, long address) {
        for (int off = from; off < from + length; off += STRIDE) {
            int count = Math.min(STRIDE, from + length - off);
            if (!states.isRead(address + (off - from), count)) {
                unread[off >> 15] |= 1L << (off >> 9);
                whole = false;
            }
        }
    }

    private Fix undo() {
        if (!whole && strideUnread(0)) {
            return Fix.UNREAD;
        }
        int from = u16(FIXUP_OFFSET);
        int count = u16(FIXUP_COUNT);
        if ((from & 1) != 0 || count != 1 + size / STRIDE || from + 2 * count > STRIDE - 2 || from < 0x18) {
            return Fix.BAD_HEADER;
        }
        short mark = (short) u16(from);
        boolean good = true;
        for (int i = 1; i < count; i++) {
            int at = start + STRIDE * i - 2;
            if (!whole && strideUnread(i - 1)) {
                continue;
            }
            if ((short) U16.get(bytes, at) == mark) {
                U16.set(bytes, at, (short) U16.get(bytes, start + from + 2 * i));
            } else {
                torn[i - 1 >> 6] |= 1L << (i - 1);
                good = false;
            }
        }
        whole &= good;
        return good ? Fix.GOOD : Fix.TORN;
    }

    /** How undoing the update sequence went. */
    final Fix fix() {
        return fix;
    }

    /** Whether every stride was read and its mark was right. */
    final boolean whole() {
        return whole;
    }

    final boolean strideUnread(int stride) {
        return (unread[stride >> 6] & 1L << stride) != 0;
    }

    final boolean strideTorn(int stride) {
        return (torn[stride >> 6] & 1L << stride) != 0;
    }

    /** Whether some stride was not read. */
    final boolean anyUnread() {
        return (unread[0] | unread[1]) != 0;
    }

    /** Whether these bytes lie in the block, were read and are not torn. */
    final boolean has(int off, int count) {
        if (off < 0 || count < 0 || off > size - count) {
            return false;
        }
        if (whole || count == 0) {
            return true;
        }
        for (int stride = off >> 9; stride <= off + count - 1 >> 9; stride++) {
            if (strideUnread(stride) || strideTorn(stride)) {
                return false;
            }
        }
        return true;
    }

    /** Whether some of these bytes, inside the block, were not read. */
    final boolean unread(int off, int count) {
        if (whole) {
            return false;
        }
        int last = Math.min(size, off + count) - 1 >> 9;
        for (int stride = Math.max(0, off) >> 9; stride <= last; stride++) {
            if (strideUnread(stride)) {
                return true;
            }
        }
        return false;
    }

    final int u8(int off) {
        return bytes[start + off] & 0xFF;
    }

    final int u16(int off) {
        return (short) U16.get(bytes, start + off) & 0xFFFF;
    }

    final int s32(int off) {
        return (int) U32.get(bytes, start + off);
    }

    final long u32(int off) {
        return s32(off) & 0xFFFFFFFFL;
    }

    final long u64(int off) {
        return (long) U64.get(bytes, start + off);
    }

    /** UTF-16LE text as it stands; unpaired surrogates stay. */
    final String utf16(int off, int units) {
        char[] chars = new char[units];
        for (int i = 0; i < units; i++) {
            chars[i] = (char) u16(off + 2 * i);
        }
        return new String(chars);
    }
}
