package sectorglass.apple;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** Makes the volume of an APFS container superblock. Source: Apple File System Reference by way of apfsprogs (linux-apfs). */
final class Apfs {
    private Apfs() {
    }

    /** @param at byte of the superblock to start from */
    static Volume open(VolumeSite site, long at) {
        Window w = site.window(at, 4096);
        VolumeFacts facts = new VolumeFacts();
        List<Structure> structures = new ArrayList<>();
        VolumeFacts.known(() -> {
            facts.uuid = VolumeFacts.uuid(w, 0x48);
            facts.clusterBytes = w.u32le(0x24);
            return facts.bytes = VolumeFacts.product(w.u64le(0x28), w.u32le(0x24));
        });
        if (at != 0) {
            facts.remarks.add("read from the container superblock at byte " + at);
        }
        ApfsContainer container = VolumeFacts.known(() -> new ApfsContainer(site, at));
        structures.add(new VolumeHeader(site, 0, 4096).structure("container superblock", "apfs_container_superblock"));
        if (container != null) {
            for (long block : container.superblocks) {
                structures.add(container.header(block).structure("container superblock in block " + block, "apfs_container_superblock"));
            }
            VolumeFacts.known(() -> {
                describe(container, facts, structures);
                return true;
            });
        }
        return new ApfsVolume(site, facts.info("apfs", site), structures, container);
    }

    private static void describe(ApfsContainer container, VolumeFacts facts, List<Structure> structures) {
        Window sb = container.superblock();
        if (container.newest != container.latest) {
            facts.remarks.add("read from the checkpoint of transaction " + sb.u64le(16) + ", because that of the newest is damaged");
        }
        Long manager = container.ephemeral.get(sb.u64le(0x98));
        if (manager != null && container.header(manager).inside()) {
            structures.add(container.header(manager).structure("space manager", "apfs_space_manager"));
            VolumeFacts.known(() -> {
                Window w = container.header(manager).window();
                return facts.usedBytes = VolumeFacts.product(w.u64le(0x30) - w.u64le(0x48), container.blockSize);
            });
        }
        long map = sb.u64le(0xA0);
        if (container.header(map).inside()) {
            structures.add(container.header(map).structure("object map", "apfs_object_map"));
        }
        for (ApfsVolumeHeader volume : container.volumes().found()) {
            String name = volume.name();
            facts.remarks.add("volume \"" + name + "\", role " + volume.role() + ", " + volume.usedBytes() + " bytes in use, " + volume.files()
                    + " files, " + volume.folders() + " folders" + (volume.encrypted() ? ", encrypted" : "") + (volume.sealed() ? ", sealed" : ""));
            structures.add(container.header(volume.block).structure("volume superblock " + name, "apfs_volume_superblock"));
            if (container.header(volume.mapBlock()).inside()) {
                structures.add(container.header(volume.mapBlock()).structure("object map of " + name, "apfs_object_map"));
            }
        }
    }
}
