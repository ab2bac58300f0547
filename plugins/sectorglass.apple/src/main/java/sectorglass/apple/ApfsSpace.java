package sectorglass.apple;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;

/**
 * The space manager: chunks of blocks and their bitmaps, least significant bit first, 1 is used. Source: Apple File System Reference,
 * "Space Manager", by way of apfs_raw.h (linux-apfs).
 */
final class ApfsSpace {
    private static final int MAIN = 0x30;
    private static final int TABLE = 0x28;
    private static final int CHUNK_BYTES = 32;
    /** Count of chunks and blocks in an info block: the upper bits are reserved. */
    private static final long COUNT_MASK = 0x000FFFFF;

    /**
     * A chunk.
     *
     * @param info block of the chunk-info block that names it
     * @param at byte of its entry there
     * @param bitmap block of its bitmap; 0 where all is free
     */
    record Chunk(long info, int at, long first, long blocks, long free, long bitmap) { }

    /** Sees bits of a chunk. */
    interface Bits {
        void bits(long block, byte[] bytes, int count);
    }

    private final ApfsContainer container;
    final VolumeHeader header;
    /** Blocks of chunk-info blocks. */
    final List<Long> infos = new ArrayList<>();
    /** Blocks that hold the addresses of chunk-info blocks. */
    final List<Long> tables = new ArrayList<>();
    private final List<SectorRange> unread = new ArrayList<>();
    private boolean damaged;

    /** @param block block of the space manager, inside the container */
    ApfsSpace(ApfsContainer container, long block) {
        this.container = container;
        this.header = container.header(block);
        read();
    }

    /** The space manager of the newest checkpoint, or null where it was not read or is not there. */
    static ApfsSpace of(ApfsContainer container) {
        return VolumeFacts.known(() -> {
            Long block = container.ephemeral.get(container.superblock().u64le(0x98));
            return block == null || !container.header(block).inside() || container.header(block).window().u16le(24) != 5 ? null
                    : new ApfsSpace(container, block);
        });
    }

    /** Sectors that were not read and without which the bitmaps of the container are not all known. */
    static SectorRanges lacking(ApfsContainer container) {
        ApfsSpace space = of(container);
        if (space == null) {
            Long block = VolumeFacts.known(() -> container.ephemeral.get(container.superblock().u64le(0x98)));
            return block == null ? container.mapsUnread()
                    : container.header(block).inside() ? container.header(block).window().missing(0, container.blockSize) : SectorRanges.EMPTY;
        }
        SectorRanges bitmaps = SectorRanges.EMPTY;
        for (Chunk chunk : space.chunks()) {
            VolumeHeader at = container.header(chunk.bitmap());
            if (chunk.bitmap() != 0 && at.inside()) {
                bitmaps = bitmaps.union(at.window().missing(0, (int) ((chunk.blocks() + 7) / 8)));
            }
        }
        return SectorRanges.of(space.unread()).union(bitmaps);
    }

    private void read() {
        Window w = header.window();
        if (!w.isRead(0, container.blockSize)) {
            w.missing(0, container.blockSize).forEach(unread::add);
            return;
        }
        long table = w.u32le(MAIN + 0x20);
        long held = w.u32le(MAIN + 0x14);
        long first = held > 0 ? held : w.u32le(MAIN + 0x10);
        if (table % 8 != 0 || table + first * 8 > container.blockSize) {
            damaged = true;
            return;
        }
        for (int i = 0; i < first; i++) {
            (held > 0 ? tables : infos).add(w.u64le((int) table + 8 * i));
        }
        for (long block : tables) {
            Window addresses = block(block, 6);
            long count = addresses == null ? 0 : Math.min(addresses.u32le(0x24) & COUNT_MASK, (container.blockSize - TABLE) / 8);
            for (int i = 0; i < count; i++) {
                infos.add(addresses.u64le(TABLE + 8 * i));
            }
        }
    }

    /** A block of a kind; null where it lies outside, was not read or is of another kind. */
    private Window block(long block, int type) {
        VolumeHeader at = container.header(block);
        if (!at.inside()) {
            damaged = true;
            return null;
        }
        Window w = at.window();
        if (!w.isRead(0, container.blockSize)) {
            w.missing(0, container.blockSize).forEach(unread::add);
            return null;
        }
        damaged |= w.u16le(24) != type;
        return w.u16le(24) == type ? w : null;
    }

    /** Sectors that were not read of the manager and its tables, so that chunks are not known. */
    List<SectorRange> unread() {
        return unread;
    }

    /** Whether something of it could not be used. */
    boolean damaged() {
        return damaged;
    }

    /** All chunks of the main device that are known. */
    List<Chunk> chunks() {
        List<Chunk> all = new ArrayList<>();
        unread.clear();
        long left = container.blocks();
        for (long info : infos) {
            Window w = left < 0 ? null : block(info, 7);
            long count = w == null ? 0 : Math.min(w.u32le(0x24) & COUNT_MASK, (container.blockSize - TABLE) / CHUNK_BYTES);
            for (int i = 0; i < count; i++) {
                int at = TABLE + CHUNK_BYTES * i;
                long first = w.u64le(at + 8);
                long blocks = w.u32le(at + 16) & COUNT_MASK;
                left -= blocks;
                if (left >= 0 && blocks > 0 && first >= 0 && first <= container.blocks() - blocks && blocks <= container.blockSize * 8L) {
                    all.add(new Chunk(info, at, first, blocks, w.u32le(at + 20) & COUNT_MASK, w.u64le(at + 24)));
                } else {
                    damaged = true;
                }
            }
        }
        return all;
    }

    /** Gives the bits of a chunk's bitmap; false where the bitmap was not read or lies outside the container. */
    boolean bits(Chunk chunk, Bits visitor) {
        if (chunk.bitmap() == 0) {
            visitor.bits(chunk.first(), new byte[(int) ((chunk.blocks() + 7) / 8)], (int) chunk.blocks());
            return true;
        }
        VolumeHeader at = container.header(chunk.bitmap());
        int bytes = (int) ((chunk.blocks() + 7) / 8);
        if (!at.inside() || !at.window().isRead(0, bytes)) {
            return false;
        }
        visitor.bits(chunk.first(), at.window().bytes(0, bytes), (int) chunk.blocks());
        return true;
    }

    /** Blocks of the main device that its manager counts. */
    long blocks() {
        return header.window().u64le(MAIN);
    }

    /** Free blocks of the main device by its manager. */
    long free() {
        return header.window().u64le(MAIN + 0x18);
    }

    /** Where the pool of its own blocks and its bitmaps lie: first block and count of each. */
    long[][] pools() {
        Window w = header.window();
        return VolumeFacts.known(() -> new long[][] {{w.u64le(0xA8), w.u32le(0xA4)}, {w.u64le(0xB0), w.u64le(0x98)}});
    }

    /** Stops where somebody asks to. */
    static void step(Progress progress, int done, int all) {
        progress.checkCancelled();
        progress.at("allocation", done, all);
    }
}
