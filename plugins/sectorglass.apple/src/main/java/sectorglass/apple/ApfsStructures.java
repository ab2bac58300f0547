package sectorglass.apple;

import java.util.Map;
import java.util.Optional;

import sectorglass.disk.Structure;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.image.Window;

/** Objects of APFS that are known by their own header: a type and a checksum that holds. Source: Apple File System Reference, "Objects". */
final class ApfsStructures {
    private static final Map<Integer, String> FORMATS = Map.of(1, "apfs_container_superblock", 2, "apfs_btree_node", 3, "apfs_btree_node",
            5, "apfs_space_manager", 7, "apfs_chunk_info_block", 0xB, "apfs_object_map", 0xC, "apfs_checkpoint_map", 0xD, "apfs_volume_superblock");
    private static final Map<Integer, String> NAMES = Map.of(1, "container superblock", 2, "B-tree root", 3, "B-tree node", 5, "space manager",
            7, "chunk-info block", 0xB, "object map", 0xC, "checkpoint map", 0xD, "volume superblock");

    private ApfsStructures() {
    }

    /** The object that holds a byte of the site; none where the block is unread, or no object whose checksum holds. */
    static Optional<Structure> at(ApfsContainer container, long byteInSite) {
        VolumeHeader header = container.header(byteInSite / container.blockSize);
        if (byteInSite < 0 || !header.inside()) {
            return Optional.empty();
        }
        return Optional.ofNullable(VolumeFacts.known(() -> {
            Window w = header.window();
            return ApfsObject.sumHolds(w) && !w.filled(0, 64, 0) ? of(header, w) : null;
        }));
    }

    /** A block as what its type says. */
    static Structure of(VolumeHeader header, Window w) {
        int type = w.u16le(24);
        return header.structure(NAMES.getOrDefault(type, "object") + ", id " + Long.toUnsignedString(w.u64le(8)),
                FORMATS.getOrDefault(type, "apfs_object_header"));
    }
}
