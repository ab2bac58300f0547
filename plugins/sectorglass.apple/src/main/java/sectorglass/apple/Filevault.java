package sectorglass.apple;

import java.util.List;

import sectorglass.disk.HeaderVolume;
import sectorglass.disk.Role;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** The header of a Core Storage physical volume. Source: libblkid superblock prober for cs_fvault2 (util-linux), from memory. */
final class Filevault {

    private Filevault() {
    }

    /** CRC-32C over the bytes after checksum and seed, started from the seed, without a final inversion. */
    static long sum(Window w) {
        int crc = (int) w.u32le(4);
        for (byte b : w.bytes(8, 504)) {
            crc ^= b & 0xFF;
            for (int bit = 0; bit < 8; bit++) {
                crc = (crc & 1) != 0 ? crc >>> 1 ^ 0x82F63B78 : crc >>> 1;
            }
        }
        return crc & 0xFFFFFFFFL;
    }

    static Volume open(VolumeSite site) {
        Window w = site.window(0, 512);
        VolumeFacts facts = new VolumeFacts();
        VolumeFacts.known(() -> {
            facts.uuid = VolumeFacts.uuid(w, 304);
            return facts.bytes = w.u64le(64) > 0 ? w.u64le(64) : null;
        });
        facts.remarks.add("encrypted: content cannot be read without the key");
        return new HeaderVolume(facts.info("filevault", site), site,
                List.of(new VolumeHeader(site, 0, 512).structure("volume header", "core_storage_header")),
                List.of(Role.of(Role.Kind.ENCRYPTED, "Core Storage volume of FileVault")), (level, out) -> { });
    }
}
