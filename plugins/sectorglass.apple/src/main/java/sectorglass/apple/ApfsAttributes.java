package sectorglass.apple;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.TreeMap;

import sectorglass.disk.Content;
import sectorglass.disk.ExtentContent;
import sectorglass.image.Window;

/** The extended attributes of one inode. Source: Apple File System Reference, "Extended Attributes", by way of apfs_raw.h (linux-apfs). */
final class ApfsAttributes {
    private static final String SYMBOLIC_LINK = "com.apple.fs.symlink";
    private static final int IN_STREAM = 1;
    private static final int EMBEDDED = 2;
    private static final int MOST = 4096;

    /** A value: its bytes where it is embedded, else the id and length of its stream. */
    private record Value(byte[] bytes, long imageByte, long stream, long length) { }

    private final ApfsCatalog catalog;
    private final Map<String, Value> values = new TreeMap<>();

    ApfsAttributes(ApfsCatalog catalog, long inode) {
        this.catalog = catalog;
        catalog.records(inode, ApfsRecords.ATTRIBUTE, (node, i) -> {
            String name = ApfsRecords.attribute(node.w, node.key(i), node.keyLength(i));
            Value value = value(node.w, node.value(i), node.valueLength(i));
            if (name != null && value != null && values.size() < MOST) {
                values.putIfAbsent(name, value);
            }
        });
    }

    private static Value value(Window w, int at, int length) {
        if (length < 4 || w.u16le(at + 2) > length - 4) {
            return null;
        }
        int flags = w.u16le(at);
        int bytes = w.u16le(at + 2);
        return (flags & EMBEDDED) != 0 ? new Value(w.bytes(at + 4, bytes), w.address(at + 4), -1, bytes)
                : (flags & IN_STREAM) != 0 && bytes >= 48 ? new Value(null, -1, w.u64le(at + 4), w.u64le(at + 12)) : null;
    }

    /** An attribute as content; null where the inode has none of this name. */
    Content stream(String name) {
        Value value = values.get(name);
        return value == null || value.bytes() != null ? null
                : new ExtentContent(catalog.volume.container.site.image(), Math.max(-1, value.length()), catalog.extents(value.stream()));
    }

    /** How the file is compressed, or null. */
    Decmpfs compression() {
        Value value = values.get(Decmpfs.NAME);
        return value == null || value.bytes() == null ? null : Decmpfs.of(value.bytes());
    }

    /** The content of a compressed file. */
    Content compressed() {
        Value value = values.get(Decmpfs.NAME);
        return compression().content(catalog.volume.container.site.image(), stream(Decmpfs.RESOURCE), value.imageByte() + Decmpfs.HEADER);
    }

    /** Where a symbolic link leads, or null. */
    String target() {
        Value value = values.get(SYMBOLIC_LINK);
        if (value == null || value.bytes() == null) {
            return null;
        }
        int end = value.bytes().length;
        while (end > 0 && value.bytes()[end - 1] == 0) {
            end--;
        }
        return new String(value.bytes(), 0, end, StandardCharsets.UTF_8);
    }

    /** Length of the resource fork; 0 where there is none. */
    long resourceBytes() {
        Value value = values.get(Decmpfs.RESOURCE);
        return value == null || value.bytes() != null ? 0 : value.length();
    }
}
