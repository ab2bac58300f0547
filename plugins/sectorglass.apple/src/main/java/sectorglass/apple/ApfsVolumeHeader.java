package sectorglass.apple;

import java.nio.charset.StandardCharsets;
import java.util.Map;

import sectorglass.disk.VolumeFacts;
import sectorglass.image.Progress;
import sectorglass.image.Window;

/**
 * One volume of a container, by its superblock. Source: Apple File System Reference, "Volumes", by way of apfs_raw.h (linux-apfs).
 */
final class ApfsVolumeHeader {
    private static final Map<Integer, String> ROLES = Map.ofEntries(Map.entry(0, "none"), Map.entry(1, "system"), Map.entry(2, "user"),
            Map.entry(4, "recovery"), Map.entry(8, "VM"), Map.entry(0x10, "preboot"), Map.entry(0x20, "installer"),
            Map.entry(0x40, "data"), Map.entry(0x80, "baseband"), Map.entry(0xC0, "update"), Map.entry(0x100, "xART"),
            Map.entry(0x140, "hardware"), Map.entry(0x180, "backup"), Map.entry(0x240, "enterprise"), Map.entry(0x2C0, "prelogin"));
    private static final int UNENCRYPTED = 1;
    /** Names compare without capitals, or without their way of composing accents: both have a hash before the name. */
    private static final int HASHED = 1 | 8;
    private static final int SEALED = 0x20;

    final ApfsContainer container;
    final long block;
    final Window w;
    private ApfsObjectMap map;

    ApfsVolumeHeader(ApfsContainer container, long block) {
        this.container = container;
        this.block = block;
        this.w = container.header(block).window();
    }

    /** The name, or null where it has none. */
    String name() {
        return VolumeFacts.text(w, 0x2C0, 256, StandardCharsets.UTF_8);
    }

    String role() {
        return ROLES.getOrDefault(w.u16le(0x3C4), "unknown");
    }

    int roleNumber() {
        return w.u16le(0x3C4);
    }

    boolean encrypted() {
        return (w.u64le(0x108) & UNENCRYPTED) == 0;
    }

    boolean sealed() {
        return (w.u64le(0x38) & SEALED) != 0;
    }

    boolean hashed() {
        return (w.u64le(0x38) & HASHED) != 0;
    }

    long files() {
        return w.u64le(0xB8);
    }

    long folders() {
        return w.u64le(0xC0);
    }

    long symbolicLinks() {
        return w.u64le(0xC8);
    }

    long snapshots() {
        return w.u64le(0xD8);
    }

    /** Bytes in use, or null where that cannot be. */
    Long usedBytes() {
        return VolumeFacts.product(w.u64le(0x58), container.blockSize);
    }

    /** Block of the object map. */
    long mapBlock() {
        return w.u64le(0x80);
    }

    /** The object map, read at the first call. */
    synchronized ApfsObjectMap map() {
        if (map == null) {
            map = new ApfsObjectMap(container, mapBlock(), w.u64le(16), (block, id, node) -> { }, Progress.NONE);
        }
        return map;
    }

    /** The tree of files. Its root is a virtual object, on a sealed volume, too. */
    ApfsTree catalog() {
        return new ApfsTree(container, w.u64le(0x88), (w.u32le(0x74) & 0x40000000L) != 0 ? id -> id : map()::block, 0, 0);
    }

    /** The tree of extents of a sealed volume, of physical nodes with keys and values of 16 bytes; null on others. */
    ApfsTree sealedExtents() {
        return sealed() && w.u64le(0x408) > 0 ? new ApfsTree(container, w.u64le(0x408), id -> id, 16, 16) : null;
    }
}
