package sectorglass.volumes;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;

import sectorglass.disk.HeaderVolume;
import sectorglass.disk.Role;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** Makes the volume of an md superblock. */
final class MdVolume {

    private MdVolume() {
    }

    static Volume open(VolumeSite site, MdSuperblock md) {
        VolumeFacts facts = new VolumeFacts();
        VolumeFacts.known(() -> {
            Window w = site.window(md.at(), 512);
            facts.uuid = md.uuid();
            facts.latest = Instant.ofEpochSecond(md.old() ? md.u32(w, 128) : w.u64le(192) & 0xFFFFFFFFFFL);
            facts.remarks.add("member of a set of level " + level(md.level()) + " with " + md.disks() + " disks, superblock "
                    + md.version());
            return facts.label = md.old() ? null : VolumeFacts.text(w, 32, 32, StandardCharsets.UTF_8);
        });
        Volume headers = new HeaderVolume(facts.info("md", site), site,
                md.bigEndian() ? List.of() : List.of(new VolumeHeader(site, md.at(), md.old() ? 4096 : length(md)).structure("superblock",
                        md.old() ? "md_superblock_0_90" : "md_superblock_1")),
                List.of(Role.of(Role.Kind.SET_MEMBER, "md superblock " + md.version())), (level, out) -> MdChecks.check(md, out));
        return new MemberVolume(headers, new MdMember(md));
    }

    private static int length(MdSuperblock md) {
        Long roles = VolumeFacts.known(() -> md.site().window(md.at(), 512).u32le(220));
        return 256 + 2 * (int) Math.min(1920, roles == null ? 128 : roles);
    }

    private static String level(int level) {
        return level == -4 ? "multipath" : level == -1 ? "linear" : String.valueOf(level);
    }
}
