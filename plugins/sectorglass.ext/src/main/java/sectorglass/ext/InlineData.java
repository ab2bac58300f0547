package sectorglass.ext;

import java.util.ArrayList;
import java.util.List;

import sectorglass.image.Window;

/** Data that stands in the inode: 60 bytes of the map, then the attribute "system.data". Source: Linux kernel documentation,
 * filesystems/ext4, inline data. */
final class InlineData {
    private static final int INDEX_SYSTEM = 7;

    private InlineData() {
    }

    /** The value of the attribute, or null where there is none. */
    static Window attribute(Inode inode) {
        Window w = inode.window();
        int start = 128 + inode.extra();
        if (w.length() <= 128 || !inode.extraSane() || start + 8 > w.length() || w.u32le(start) != AttributeChecks.MAGIC) {
            return null;
        }
        int base = start + 4;
        for (int at = base; at + 16 <= w.length() && w.u32le(at) != 0;) {
            int name = w.u8(at);
            int offset = w.u16le(at + 2);
            long size = w.u32le(at + 8);
            if (at + 16 + name > w.length()) {
                return null;
            }
            if (w.u8(at + 1) == INDEX_SYSTEM && name == 4 && w.matches(at + 16, "data")) {
                return base + offset > w.length() || size > w.length() - base - offset ? null : w.sub(base + offset, (int) size);
            }
            at += 16 + name + 3 & ~3;
        }
        return null;
    }

    /** The runs of entries of a directory. */
    static List<Window> directoryParts(Inode inode) {
        List<Window> parts = new ArrayList<>();
        parts.add(inode.window().sub(0x2C, 56));
        Window more = attribute(inode);
        if (more != null && more.length() >= 8) {
            parts.add(more);
        }
        return parts;
    }

    /** The pieces of a file. */
    static List<Window> fileParts(Inode inode) {
        List<Window> parts = new ArrayList<>();
        parts.add(inode.window().sub(0x28, 60));
        Window more = attribute(inode);
        if (more != null && more.length() > 0) {
            parts.add(more);
        }
        return parts;
    }
}
