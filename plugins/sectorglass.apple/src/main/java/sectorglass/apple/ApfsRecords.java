package sectorglass.apple;

import java.nio.charset.StandardCharsets;

import sectorglass.image.Window;

/**
 * Keys and values of the file tree. A key starts with the object id in 60 bits and the type in 4. Source: Apple File System Reference,
 * "File-System Objects", by way of apfs_raw.h (linux-apfs).
 */
final class ApfsRecords {
    static final int INODE = 3;
    static final int ATTRIBUTE = 4;
    static final int FILE_EXTENT = 8;
    static final int NAME = 9;

    /** Type of a data stream and of a name among the extended fields. */
    static final int FIELD_NAME = 4;
    static final int FIELD_STREAM = 8;
    static final int INODE_BYTES = 92;
    /** Length in a file extent: the rest are flags. */
    static final long EXTENT_LENGTH = 0x00FFFFFFFFFFFFFFL;

    private static final long ID = 0x0FFFFFFFFFFFFFFFL;
    private static final int NAME_LENGTH = 0x3FF;

    private ApfsRecords() {
    }

    /** Object id of a key. */
    static long id(Window w, int key) {
        return w.u64le(key) & ID;
    }

    /** Type of a key. */
    static int type(Window w, int key) {
        return (int) (w.u64le(key) >>> 60);
    }

    /** Id and type in one number whose unsigned order is that of keys. */
    static long order(long id, int type) {
        return id << 4 | type;
    }

    static long order(Window w, int key) {
        return Long.rotateLeft(w.u64le(key), 4);
    }

    /** The name in a key of a directory entry, or null where it is not legal. */
    static String name(Window w, int key, int length, boolean hashed) {
        int header = hashed ? 12 : 10;
        int bytes = length < header ? 0 : hashed ? (int) (w.u32le(key + 8) & NAME_LENGTH) : w.u16le(key + 8);
        return text(w, key + header, bytes, length - header);
    }

    /** The name in a key of an attribute, or null where it is not legal. */
    static String attribute(Window w, int key, int length) {
        return length < 10 ? null : text(w, key + 10, w.u16le(key + 8), length - 10);
    }

    /** Text with its terminating zero. */
    private static String text(Window w, int at, int bytes, int room) {
        return bytes < 1 || bytes > room || w.u8(at + bytes - 1) != 0 ? null : w.text(at, bytes - 1, StandardCharsets.UTF_8);
    }

    /**
     * An extended field.
     *
     * @param at byte of the fields, after the fixed part of a record
     * @param end byte after the record
     * @return byte of the field's data, or -1; its length is at most what it takes to the end
     */
    static int field(Window w, int at, int end, int type, int least) {
        if (at + 4 > end) {
            return -1;
        }
        int count = w.u16le(at);
        int data = at + 4 + 4 * count;
        for (int i = 0; i < count && data <= end; i++) {
            int length = w.u16le(at + 4 + 4 * i + 2);
            if (data + length > end) {
                return -1;
            }
            if (w.u8(at + 4 + 4 * i) == type) {
                return length >= least ? data : -1;
            }
            data += (length + 7) / 8 * 8;
        }
        return -1;
    }

    /** Bytes of a file by its inode's data stream; 0 where it has none. */
    static long size(Window w, int value, int length) {
        int stream = field(w, value + INODE_BYTES, value + length, FIELD_STREAM, 40);
        return stream < 0 ? 0 : w.u64le(stream);
    }

    /** The name that the inode itself keeps, or null. */
    static String ownName(Window w, int value, int length) {
        int at = field(w, value + INODE_BYTES, value + length, FIELD_NAME, 1);
        if (at < 0) {
            return null;
        }
        int end = at;
        while (end < value + length && w.u8(end) != 0) {
            end++;
        }
        return end == at || end - at > NAME_LENGTH ? null : w.text(at, end - at, StandardCharsets.UTF_8);
    }
}
