package sectorglass.volumes;

import java.nio.charset.StandardCharsets;
import java.util.List;

import sectorglass.disk.HeaderVolume;
import sectorglass.disk.Role;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** LUKS header version 1, big endian. Source: libblkid superblock prober for LUKS (util-linux). */
final class Luks1 {
    /** Bytes of the header: fixed part and eight slots. */
    static final int LENGTH = 592;

    private Luks1() {
    }

    static Volume open(VolumeSite site) {
        Window w = site.window(0, LENGTH);
        VolumeFacts facts = new VolumeFacts();
        VolumeFacts.known(() -> facts.uuid = VolumeFacts.text(w, 168, 40, StandardCharsets.US_ASCII));
        facts.remarks.add("encrypted: content cannot be read without the key");
        return new HeaderVolume(facts.info("luks1", site), site,
                List.of(new VolumeHeader(site, 0, LENGTH).structure("LUKS header", "luks1_header")),
                List.of(Role.of(Role.Kind.ENCRYPTED, "LUKS header version 1")), (level, out) -> LuksChecks.slots(site, out));
    }
}
