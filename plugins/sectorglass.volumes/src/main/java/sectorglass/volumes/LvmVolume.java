package sectorglass.volumes;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.HeaderVolume;
import sectorglass.disk.Role;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** Makes the volume of an LVM2 label. */
final class LvmVolume {
    private static final int[] GROUPS = {6, 4, 4, 4, 4, 4, 6};

    private LvmVolume() {
    }

    /** CRC of the label sector, as it should stand at 16. */
    static long sum(Window label) {
        return SeededCrc32.of(SeededCrc32.LVM, label.bytes(20, 492));
    }

    /** @param sector sector of 512 bytes that holds the label */
    static Volume open(VolumeSite site, int sector) {
        Window w = site.window(sector * 512L, 512);
        VolumeFacts facts = new VolumeFacts();
        VolumeFacts.known(() -> {
            facts.uuid = id(w.ascii(32, 32));
            return facts.bytes = w.u64le(64) > 0 ? w.u64le(64) : null;
        });
        List<Structure> structures = new ArrayList<>();
        structures.add(new VolumeHeader(site, sector * 512L, 512).structure("label", "lvm2_label"));
        for (Area area : metadataAreas(w)) {
            VolumeHeader header = new VolumeHeader(site, area.offset(), 512);
            if (header.inside()) {
                structures.add(header.structure("metadata area header", "lvm2_metadata_header"));
            }
        }
        Volume headers = new HeaderVolume(facts.info("lvm2", site), site, List.copyOf(structures),
                List.of(Role.of(Role.Kind.SET_MEMBER, "LVM2 physical volume")), (level, out) -> LvmChecks.check(site, sector, out));
        return new MemberVolume(headers, new LvmMember(site, w));
    }

    /**
     * A range of the device.
     *
     * @param offset first byte
     * @param size bytes; 0 up to the end
     */
    record Area(long offset, long size) { }

    /** The metadata areas that the label names; none where its sector was not read. */
    static List<Area> metadataAreas(Window label) {
        List<Area> all = new ArrayList<>();
        VolumeFacts.known(() -> {
            int at = 72;
            for (int list = 0; list < 2; list++) {
                for (; at + 16 <= 512; at += 16) {
                    long offset = label.u64le(at);
                    long size = label.u64le(at + 8);
                    if (offset == 0 && size == 0) {
                        at += 16;
                        break;
                    }
                    if (list == 1 && offset > 0 && size >= 0) {
                        all.add(new Area(offset, size));
                    }
                }
            }
            return true;
        });
        return all;
    }

    /** 32 characters in groups, as LVM2 prints them; upper and lower case differ. */
    static String id(String raw) {
        StringBuilder text = new StringBuilder();
        int at = 0;
        for (int group : GROUPS) {
            text.append(at == 0 ? "" : "-").append(raw, at, at + group);
            at += group;
        }
        return text.toString();
    }
}
