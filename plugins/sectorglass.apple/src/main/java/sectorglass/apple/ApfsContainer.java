package sectorglass.apple;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/**
 * A container as its newest valid checkpoint describes it. Source: Apple File System Reference by way of apfsprogs (linux-apfs).
 */
final class ApfsContainer {
    private static final int MOST_DESCRIPTORS = 4096;
    private static final int MOST_LEVELS = 8;

    final VolumeSite site;
    final int blockSize;
    /** Blocks of the descriptor area that hold a container superblock with a valid checksum. */
    final List<Long> superblocks = new ArrayList<>();
    /** Blocks of the descriptor area that hold a superblock or a checkpoint map whose checksum does not hold. */
    final List<Long> damaged = new ArrayList<>();
    /** Blocks of the descriptor area that were not read. */
    final List<Long> unread = new ArrayList<>();
    /** Block of the newest superblock; that of the starting point where the area holds none. */
    final long latest;
    /** Block of the newest superblock whose checkpoint is not damaged: what is read is read from it. */
    final long newest;
    /** Blocks of ephemeral objects by id. */
    final Map<Long, Long> ephemeral = new HashMap<>();
    /** Sectors that were not read of the maps that tell where ephemeral objects stand. */
    private SectorRanges mapsUnread = SectorRanges.EMPTY;

    ApfsContainer(VolumeSite site, long startByte) {
        this.site = site;
        Window start = site.window(startByte, 4096);
        long size = start.u32le(0x24);
        this.blockSize = VolumeFacts.power(size, 4096, 65536) ? (int) size : 4096;
        long base = start.u64le(0x70);
        long count = start.u32le(0x68);
        Map<Long, Long> found = new HashMap<>();
        if ((count & 0x80000000L) == 0 && base > 0) {
            for (long block = base; block < base + Math.min(count, MOST_DESCRIPTORS); block++) {
                VolumeHeader header = header(block);
                if (!header.inside()) {
                    break;
                }
                Window w = header.window();
                if (!w.isRead(0, blockSize)) {
                    unread.add(block);
                } else if (!ApfsObject.sumHolds(w)) {
                    if (w.matches(32, ApfsVolumes.MAGIC) || w.u32le(24) == 0x4000000CL) {
                        damaged.add(block);
                    }
                } else if (w.matches(32, ApfsVolumes.MAGIC)) {
                    superblocks.add(block);
                    found.put(block, w.u64le(16));
                }
            }
        }
        List<Long> order = new ArrayList<>(superblocks);
        order.sort((a, b) -> Long.compareUnsigned(found.get(b), found.get(a)));
        if (order.isEmpty() || Long.compareUnsigned(start.u64le(16), found.get(order.get(0))) > 0) {
            order.add(0, startByte / blockSize);
        }
        latest = order.get(0);
        newest = order.stream().filter(block -> complete(block, base, count)).findFirst().orElse(latest);
        VolumeFacts.known(() -> maps(newest, base, count));
    }

    /** Whether nothing that was read of a checkpoint is damaged: its maps and the object map that it names. */
    private boolean complete(long block, long base, long count) {
        return !Boolean.FALSE.equals(VolumeFacts.known(() -> {
            VolumeHeader map = header(header(block).window().u64le(0xA0));
            boolean object = map.inside() && (!map.window().isRead(0, blockSize) || map.window().u16le(24) == 0xB && ApfsObject.sumHolds(map.window()));
            return maps(block, base, count) && object;
        }));
    }

    /** A block. */
    VolumeHeader header(long block) {
        boolean possible = block >= 0 && block <= site.bytes() / blockSize;
        return new VolumeHeader(site, possible ? block * blockSize : -1, blockSize);
    }

    /** Number of blocks, by the superblock, at most those that the site has room for. */
    long blocks() {
        Long claimed = VolumeFacts.known(() -> superblock().u64le(0x28));
        long room = site.bytes() / blockSize;
        return claimed == null || claimed < 0 ? room : Math.min(claimed, room);
    }

    /** Sectors of blocks. */
    SectorRange sectors(long block, long count) {
        return new ByteRange(site.firstByte() + block * blockSize, count * blockSize).sectors(site.image().sectorSize());
    }

    /** The superblock that is believed: the newest of a checkpoint that is not damaged. */
    Window superblock() {
        return header(newest).window();
    }

    /** Takes the places of ephemeral objects from the maps of a checkpoint; gives whether no map that was read is damaged. */
    private boolean maps(long superblock, long base, long count) {
        ephemeral.clear();
        mapsUnread = SectorRanges.EMPTY;
        Window sb = header(superblock).window();
        long index = sb.u32le(0x88);
        long length = sb.u32le(0x8C);
        boolean sound = true;
        for (long i = 0; i < Math.min(length, MOST_DESCRIPTORS) && count > 0; i++) {
            VolumeHeader header = header(base + (index + i) % count);
            if (!header.inside() || header.at() == superblock * blockSize) {
                continue;
            }
            if (!header.window().isRead(0, blockSize)) {
                mapsUnread = mapsUnread.union(header.window().missing(0, blockSize));
                continue;
            }
            Window w = header.window();
            if (w.u16le(24) != 0xC || !ApfsObject.sumHolds(w)) {
                sound &= i == length - 1;
                continue;
            }
            long entries = Math.min(w.u32le(0x24), (blockSize - 0x28) / 40);
            for (int k = 0; k < entries; k++) {
                ephemeral.put(w.u64le(0x28 + 40 * k + 24), w.u64le(0x28 + 40 * k + 32));
            }
        }
        return sound;
    }

    /** Sectors that were not read of the maps that tell where ephemeral objects stand. */
    SectorRanges mapsUnread() {
        return mapsUnread;
    }

    /** Block of the object map's tree, or -1. */
    long mapTree() {
        VolumeHeader map = header(superblock().u64le(0xA0));
        return map.inside() ? map.window().u64le(0x30) : -1;
    }

    /** Ids of the volumes. */
    List<Long> volumeIds() {
        List<Long> all = new ArrayList<>();
        Window sb = superblock();
        for (int i = 0; i < Math.min(100, sb.u32le(0xB4)); i++) {
            if (sb.u64le(0xB8 + 8 * i) != 0) {
                all.add(sb.u64le(0xB8 + 8 * i));
            }
        }
        return all;
    }

    /**
     * The volumes of the container.
     *
     * @param found superblocks that the object map leads to
     * @param lost how many ids lead to none
     * @param unread sectors that would tell more
     */
    record Volumes(List<ApfsVolumeHeader> found, int lost, SectorRanges unread) { }

    /** The volumes as far as they can be reached. */
    Volumes volumes() {
        List<ApfsVolumeHeader> found = new ArrayList<>();
        SectorRanges missing = SectorRanges.EMPTY;
        int lost = 0;
        try {
            long tree = mapTree();
            long transaction = superblock().u64le(16);
            for (long id : volumeIds()) {
                try {
                    VolumeHeader volume = header(resolve(tree, id, transaction));
                    if (volume.inside() && volume.window().matches(32, "APSB")) {
                        volume.window().require(0, blockSize);
                        found.add(new ApfsVolumeHeader(this, volume.at() / blockSize));
                    } else {
                        lost++;
                    }
                } catch (UnreadException e) {
                    missing = missing.union(e.missing());
                }
            }
        } catch (UnreadException e) {
            missing = missing.union(e.missing());
        }
        return new Volumes(found, lost, missing);
    }

    /**
     * Block of a virtual object by the object map, its largest transaction up to the given one; -1 where the map holds none. Throws where
     * a node was not read.
     */
    long resolve(long tree, long id, long transaction) {
        long block = tree;
        for (int level = 0; level < MOST_LEVELS; level++) {
            VolumeHeader header = header(block);
            if (!header.inside()) {
                return -1;
            }
            Window w = header.window();
            int flags = w.u16le(0x20);
            int keys = (int) Math.min(w.u32le(0x24), blockSize / 4);
            int keyArea = 0x38 + w.u16le(0x28) + w.u16le(0x2A);
            int end = blockSize - ((flags & 1) != 0 ? 40 : 0);
            int found = -1;
            for (int i = 0; i < keys; i++) {
                int toc = 0x38 + w.u16le(0x28) + 4 * i;
                if (toc + 4 > blockSize || keyArea + w.u16le(toc) + 16 > blockSize) {
                    return -1;
                }
                int key = keyArea + w.u16le(toc);
                int order = Long.compareUnsigned(w.u64le(key), id);
                if (order < 0 || order == 0 && Long.compareUnsigned(w.u64le(key + 8), transaction) <= 0) {
                    found = i;
                } else {
                    break;
                }
            }
            if (found < 0) {
                return -1;
            }
            int toc = 0x38 + w.u16le(0x28) + 4 * found;
            int value = end - w.u16le(toc + 2);
            boolean leaf = (flags & 2) != 0;
            if (value < 0x38 || value + (leaf ? 16 : 8) > blockSize) {
                return -1;
            }
            if (leaf) {
                return w.u64le(keyArea + w.u16le(toc)) == id ? w.u64le(value + 8) : -1;
            }
            block = w.u64le(value);
        }
        return -1;
    }
}
