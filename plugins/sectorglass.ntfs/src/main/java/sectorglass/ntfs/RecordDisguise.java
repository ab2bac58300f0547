package sectorglass.ntfs;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Set;

import sectorglass.disk.copy.Disguise;

/**
 * Replaces names and resident content in file records and index blocks. Marks of the update sequence that were right are right afterwards, wrong ones stay
 * wrong. What cannot be walked is zero. Sources: Linux kernel fs/ntfs3/ntfs.h; NTFS-3G layout.h.
 */
final class RecordDisguise {
    private static final Set<String> SYSTEM_STREAMS = Set.of("$I30", "$SDS", "$SII", "$SDH", "$O", "$Q", "$R", "$J", "$Max", "$Bad");
    private static final int HEADER = 0x38;

    private final Disguise disguise;
    private ByteBuffer b;

    RecordDisguise(Disguise disguise) {
        this.disguise = disguise;
    }

    /** Disguises a file record in place. */
    void record(byte[] bytes, int from, int size) {
        b = ByteBuffer.wrap(bytes, from, size).slice().order(ByteOrder.LITTLE_ENDIAN);
        boolean[] right = undo(size);
        int at = u16(RecordView.FIRST_ATTRIBUTE);
        if (right == null || at < 0x28 || at > size - 8 || (at & 7) != 0) {
            headOnly(size);
        } else {
            attributes(at, size);
        }
        redo(right);
    }

    /** Disguises an index block in place. */
    void block(byte[] bytes, int from, int size) {
        b = ByteBuffer.wrap(bytes, from, size).slice().order(ByteOrder.LITTLE_ENDIAN);
        boolean[] right = undo(size);
        if (right == null) {
            headOnly(size);
        } else {
            entries(DirectoryIndex.BLOCK_HEADER, size, true);
        }
        redo(right);
    }

    /** Something without a usable update sequence: only what looks like a head of the kind is kept. */
    private void headOnly(int size) {
        int signature = b.getInt(0);
        zero(signature == FixedBlock.FILE || signature == FixedBlock.INDX || signature == FixedBlock.BAAD ? HEADER : 4, size);
    }

    private int u16(int at) {
        return b.getShort(at) & 0xFFFF;
    }

    private void zero(int from, int to) {
        for (int i = from; i < to; i++) {
            b.put(i, (byte) 0);
        }
    }

    /** Puts the real bytes in place of right marks; null where the head of the update sequence is illegal. */
    private boolean[] undo(int size) {
        int from = u16(FixedBlock.FIXUP_OFFSET);
        int count = u16(FixedBlock.FIXUP_COUNT);
        if ((from & 1) != 0 || count != 1 + size / FixedBlock.STRIDE || from < 0x18 || from + 2 * count > FixedBlock.STRIDE - 2) {
            return null;
        }
        boolean[] right = new boolean[count - 1];
        for (int i = 0; i < right.length; i++) {
            int at = FixedBlock.STRIDE * (i + 1) - 2;
            right[i] = b.getShort(at) == b.getShort(from);
            if (right[i]) {
                b.putShort(at, b.getShort(from + 2 * i + 2));
            }
        }
        return right;
    }

    private void redo(boolean[] right) {
        int from = u16(FixedBlock.FIXUP_OFFSET);
        for (int i = 0; right != null && i < right.length; i++) {
            int at = FixedBlock.STRIDE * (i + 1) - 2;
            short mark = b.getShort(from);
            b.putShort(from + 2 * i + 2, right[i] ? b.getShort(at) : 0);
            b.putShort(at, right[i] ? mark : (short) (mark ^ 0x5A5A));
        }
    }

    private void attributes(int first, int size) {
        int at = first;
        while (at <= size - 8) {
            int type = b.getInt(at);
            if (type == AttributeType.END) {
                zero(at + 4, size);
                return;
            }
            long length = b.getInt(at + 4) & 0xFFFFFFFFL;
            if (at > size - 24 || length < 24 || (length & 7) != 0 || length > size - at) {
                zero(Math.min(size, at + 16), size);
                return;
            }
            attribute(type, at, at + (int) length);
            at += (int) length;
        }
        zero(Math.min(at, size), size);
    }

    private void attribute(int type, int at, int end) {
        boolean resident = b.get(at + 8) == 0;
        int units = b.get(at + 9) & 0xFF;
        int nameAt = at + u16(at + 10);
        boolean named = units > 0 && nameAt >= at + 24 && nameAt + 2 * units <= end;
        String name = named ? utf16(nameAt, units) : "";
        if (named && !SYSTEM_STREAMS.contains(name)) {
            put(nameAt, disguise.name(name));
        }
        int head = named ? nameAt + 2 * units : at + (resident ? 24 : 64);
        if (named) {
            zero(Math.min(nameAt, at + (resident ? 24 : 72)), nameAt);
        }
        if (!resident) {
            int fixed = b.getShort(at + 0x22) != 0 ? 72 : 64;
            runs(at, Math.min(end, Math.max(head, at + fixed)), end);
            return;
        }
        int value = at + u16(at + 0x14);
        long length = b.getInt(at + 0x10) & 0xFFFFFFFFL;
        if (value < at + 24 || value + length > end) {
            zero(Math.min(end, head), end);
            return;
        }
        zero(Math.min(value, head), value);
        zero(value + (int) length, end);
        value(type, name, value, (int) length);
    }

    /** Keeps the runs up to their end mark. */
    private void runs(int at, int head, int end) {
        int run = at + u16(at + 0x20);
        if (run < at + 0x40 || run >= end) {
            zero(head, end);
            return;
        }
        zero(Math.min(head, run), run);
        while (run < end && b.get(run) != 0) {
            int step = 1 + (b.get(run) & 15) + (b.get(run) >> 4 & 15);
            if (run + step > end) {
                break;
            }
            run += step;
        }
        zero(Math.min(end, run + 1), end);
    }

    private void value(int type, String name, int at, int length) {
        switch (type) {
            case AttributeType.STANDARD_INFORMATION, AttributeType.VOLUME_INFORMATION, AttributeType.BITMAP, AttributeType.EA_INFORMATION -> { }
            case AttributeType.ATTRIBUTE_LIST -> list(at, at + length);
            case AttributeType.FILE_NAME -> fileName(at, length);
            case AttributeType.VOLUME_NAME -> put(at, disguise.label(utf16(at, length / 2)));
            case AttributeType.OBJECT_ID -> random(at, disguise.numbers() ? length : 0);
            case AttributeType.INDEX_ROOT -> {
                if (length >= 0x20) {
                    entries(at + DirectoryIndex.ROOT_HEADER, at + length, name.equals(DirectoryIndex.I30));
                }
            }
            case AttributeType.DATA -> letters(at, length);
            case AttributeType.REPARSE_POINT -> zero(at + Math.min(8, length), at + length);
            default -> zero(at, at + length);
        }
    }

    private void random(int at, int length) {
        for (int i = 0; i < length; i++) {
            b.put(at + i, (byte) disguise.random(b.get(at + i) * 131L + i));
        }
    }

    private void letters(int at, int length) {
        byte[] invented = disguise.letters(length, at * 17L + length).getBytes(StandardCharsets.US_ASCII);
        for (int i = 0; i < length; i++) {
            b.put(at + i, invented[i]);
        }
    }

    private void list(int from, int end) {
        int at = from;
        while (at <= end - 26) {
            int length = u16(at + 4);
            int units = b.get(at + 6) & 0xFF;
            int name = at + (b.get(at + 7) & 0xFF);
            if (length < 26 || length > end - at) {
                break;
            }
            if (units > 0 && name + 2 * units <= at + length && !SYSTEM_STREAMS.contains(utf16(name, units))) {
                put(name, disguise.name(utf16(name, units)));
            }
            zero(Math.max(at + 26, units > 0 ? Math.min(at + length, name + 2 * units) : at + 26), at + length);
            at += length;
        }
        zero(at, end);
    }

    private void fileName(int at, int length) {
        if (length < NameValue.HEAD) {
            zero(at, at + length);
            return;
        }
        int units = b.get(at + NameValue.NAME_LENGTH) & 0xFF;
        int there = Math.min(units, (length - NameValue.HEAD) / 2);
        put(at + NameValue.HEAD, disguise.name(utf16(at + NameValue.HEAD, there)));
        zero(at + NameValue.HEAD + 2 * there, at + length);
    }

    /** Entries of an index from its header on; what comes behind the last one is zero. */
    private void entries(int header, int end, boolean names) {
        long first = header + (b.getInt(header) & 0xFFFFFFFFL);
        if (first < header + 16 || first > end - 16) {
            zero(header + 16, end);
            return;
        }
        int at = (int) first;
        while (at <= end - 16) {
            int length = u16(at + 8);
            int key = u16(at + 10);
            int flags = u16(at + 12);
            boolean last = (flags & DirectoryIndex.LAST) != 0;
            if (length < 16 || (length & 7) != 0 || at + length > end) {
                at += 16;
                break;
            }
            int below = (flags & DirectoryIndex.SUB_NODE) != 0 && length >= 24 ? at + length - 8 : at + length;
            if (last || 16 + key > below - at) {
                zero(at + 16, below);
            } else if (names) {
                fileName(at + 16, key);
                zero(at + 16 + key, below);
            } else {
                zero(at + 16, below);
            }
            at += length;
            if (last) {
                break;
            }
        }
        zero(at, end);
    }

    private String utf16(int at, int units) {
        char[] chars = new char[units];
        for (int i = 0; i < units; i++) {
            chars[i] = b.getChar(at + 2 * i);
        }
        return new String(chars);
    }

    private void put(int at, String text) {
        for (int i = 0; i < text.length(); i++) {
            b.putChar(at + 2 * i, text.charAt(i));
        }
    }
}
