package sectorglass.apple;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

import sectorglass.disk.HeaderVolume;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** Makes the volume of an APFS container superblock. Source: Apple File System Reference by way of apfsprogs (linux-apfs). */
final class Apfs {
    private static final Map<Integer, String> ROLES = Map.ofEntries(Map.entry(0, "none"), Map.entry(1, "system"), Map.entry(2, "user"),
            Map.entry(4, "recovery"), Map.entry(8, "VM"), Map.entry(0x10, "preboot"), Map.entry(0x20, "installer"),
            Map.entry(0x40, "data"), Map.entry(0x80, "baseband"), Map.entry(0xC0, "update"), Map.entry(0x100, "xART"),
            Map.entry(0x140, "hardware"), Map.entry(0x180, "backup"), Map.entry(0x240, "enterprise"), Map.entry(0x2C0, "prelogin"));

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
        return new HeaderVolume(facts.info("apfs", site), site, List.copyOf(structures), List.of(), (level, out) -> {
            if (container != null) {
                new ApfsChecks(container, out).check();
            }
        });
    }

    private static void describe(ApfsContainer container, VolumeFacts facts, List<Structure> structures) {
        Window sb = container.superblock();
        Long manager = container.ephemeral.get(sb.u64le(0x98));
        if (manager != null && container.header(manager).inside()) {
            structures.add(container.header(manager).structure("space manager", "apfs_object_header"));
            VolumeFacts.known(() -> {
                Window w = container.header(manager).window();
                return facts.usedBytes = VolumeFacts.product(w.u64le(0x30) - w.u64le(0x48), container.blockSize);
            });
        }
        long map = sb.u64le(0xA0);
        if (container.header(map).inside()) {
            structures.add(container.header(map).structure("object map", "apfs_object_header"));
        }
        long tree = container.mapTree();
        for (long id : container.volumeIds()) {
            VolumeHeader volume = container.header(container.resolve(tree, id, sb.u64le(16)));
            if (volume.inside() && volume.window().matches(32, "APSB")) {
                Window w = volume.window();
                String name = VolumeFacts.text(w, 0x2C0, 256, StandardCharsets.UTF_8);
                facts.remarks.add("volume \"" + name + "\", role " + ROLES.getOrDefault(w.u16le(0x3C4), "unknown") + ", "
                        + VolumeFacts.product(w.u64le(0x58), container.blockSize) + " bytes in use, " + w.u64le(0xB8) + " files, "
                        + w.u64le(0xC0) + " folders" + ((w.u64le(0x108) & 1) == 0 ? ", encrypted" : ""));
                structures.add(volume.structure("volume superblock " + name, "apfs_volume_superblock"));
            }
        }
    }
}
