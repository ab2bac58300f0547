package sectorglass.volumes;

import java.util.List;

import sectorglass.disk.Role;
import sectorglass.disk.Volume;
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
        Facts facts = new Facts();
        Facts.known(() -> {
            facts.uuid = id(w.ascii(32, 32));
            return facts.bytes = w.u64le(64) > 0 ? w.u64le(64) : null;
        });
        return new HeaderVolume(facts.info("lvm2", site), site, List.of(),
                List.of(Role.of(Role.Kind.SET_MEMBER, "LVM2 physical volume")), (level, out) -> { });
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
