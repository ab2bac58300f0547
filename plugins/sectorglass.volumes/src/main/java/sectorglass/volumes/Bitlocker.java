package sectorglass.volumes;

import java.nio.charset.StandardCharsets;
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

/** BitLocker's boot record and metadata blocks. Source: cryptsetup, lib/bitlk; libblkid superblock prober (util-linux). */
final class Bitlocker {

    /**
     * Where the metadata blocks are said to lie.
     *
     * @param at byte of the field in the boot record
     * @param blocks bytes from the start of the volume
     */
    record Offsets(int at, List<Long> blocks) { }

    private Bitlocker() {
    }

    static Offsets offsets(Window boot, int at) {
        return new Offsets(at, List.of(boot.u64le(at), boot.u64le(at + 8), boot.u64le(at + 16)));
    }

    /** The first version names a cluster; from memory. */
    static Offsets vista(Window boot) {
        Long at = VolumeFacts.product(VolumeFacts.product(boot.u64le(56), boot.u8(13)) == null ? -1 : boot.u64le(56) * boot.u8(13), boot.u16le(11));
        return new Offsets(56, at == null ? List.of() : List.of(at));
    }

    /** Whether a metadata block can start there. */
    static boolean legal(VolumeSite site, long at) {
        return at > 0 && at % 64 == 0 && at <= site.bytes() - 512;
    }

    static Volume open(VolumeSite site, Offsets offsets) {
        VolumeFacts facts = new VolumeFacts();
        for (long at : offsets.blocks()) {
            if (facts.uuid == null && legal(site, at) && site.has(at, 512) && site.window(at, 8).matches(0, BitlockerVolumes.MAGIC)) {
                VolumeFacts.known(() -> {
                    read(site, at, facts);
                    return true;
                });
            }
        }
        facts.remarks.add("encrypted: content cannot be read without the key");
        List<Structure> structures = new ArrayList<>();
        if (offsets.at() == 176) {
            structures.add(new VolumeHeader(site, 0, 512).structure("boot record", "bitlocker_boot_record"));
        }
        for (long at : offsets.blocks()) {
            if (legal(site, at)) {
                structures.add(new VolumeHeader(site, at, 112).structure("metadata block", "bitlocker_metadata"));
            }
        }
        return new HeaderVolume(facts.info("bitlocker", site), site, List.copyOf(structures),
                List.of(Role.of(Role.Kind.ENCRYPTED, "BitLocker boot record")),
                (level, out) -> BitlockerChecks.check(site, offsets, out));
    }

    private static void read(VolumeSite site, long at, VolumeFacts facts) {
        Window w = site.window(at, 112);
        byte[] guid = w.bytes(80, 16);
        byte[] ordered = guid.clone();
        int[] order = {3, 2, 1, 0, 5, 4, 7, 6};
        for (int i = 0; i < 8; i++) {
            ordered[i] = guid[order[i]];
        }
        facts.uuid = VolumeFacts.uuid(ordered);
        if (w.u64le(16) > 0) {
            facts.bytes = w.u64le(16) > site.bytes() ? null : w.u64le(16);
        }
        description(site, at + 64, w.u32le(64), facts);
    }

    /** Entries follow the header of 48 bytes: size, type, value type, version. Type 7, value type 2 is the description; from memory. */
    private static void description(VolumeSite site, long header, long size, VolumeFacts facts) {
        int length = (int) Math.min(size, 65536);
        if (length < 56) {
            return;
        }
        Window w = site.window(header, length);
        for (int at = 48, n = 0; at + 8 <= length && n < 256; n++) {
            int entry = w.u16le(at);
            if (entry < 8 || at + entry > length) {
                return;
            }
            if (w.u16le(at + 2) == 7 && w.u16le(at + 4) == 2) {
                facts.label = VolumeFacts.text(w.sub(at + 8, entry - 8 & ~1), StandardCharsets.UTF_16LE);
                return;
            }
            at += entry;
        }
    }
}
