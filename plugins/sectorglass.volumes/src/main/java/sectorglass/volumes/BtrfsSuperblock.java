package sectorglass.volumes;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.zip.CRC32C;

import sectorglass.disk.HeaderVolume;
import sectorglass.disk.Structure;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** Fields of a Btrfs superblock, little endian. Source: libblkid superblock prober for Btrfs (util-linux). */
final class BtrfsSuperblock {

    private BtrfsSuperblock() {
    }

    /** CRC-32C of the bytes from 0x20 to the end. */
    static long sum(Window w) {
        CRC32C crc = new CRC32C();
        crc.update(w.bytes(0x20, w.length() - 0x20));
        return crc.getValue();
    }

    /** Whether checksum type 0 is used and the checksum holds. */
    static boolean sumHolds(Window w) {
        return w.u16le(0xC4) == 0 && sum(w) == w.u32le(0);
    }

    /** @param at byte of the copy to believe */
    static Volume open(VolumeSite site, long at) {
        Window w = site.window(at, 4096);
        VolumeFacts facts = new VolumeFacts();
        VolumeFacts.known(() -> {
            facts.uuid = VolumeFacts.uuid(w, 0x20);
            facts.clusterBytes = w.u32le(0x90);
            facts.bytes = w.u64le(0xD1) > 0 ? (Long) w.u64le(0xD1) : w.u64le(0x70) > 0 ? w.u64le(0x70) : null;
            facts.usedBytes = w.u64le(0x78) >= 0 ? w.u64le(0x78) : null;
            if (w.u64le(0x88) > 1) {
                facts.remarks.add("one of " + Long.toUnsignedString(w.u64le(0x88)) + " devices of the file system");
            }
            return facts.label = VolumeFacts.text(w, 0x12B, 256, StandardCharsets.UTF_8);
        });
        if (at != 0x10000) {
            facts.remarks.add("read from the copy of the superblock at byte " + at);
        }
        List<Structure> structures = BtrfsVolumes.PLACES.stream().map(place -> new VolumeHeader(site, place, 4096)).filter(VolumeHeader::inside)
                .map(header -> header.structure(header.at() == 0x10000 ? "superblock" : "copy of the superblock", "btrfs_superblock"))
                .toList();
        return new HeaderVolume(facts.info("btrfs", site), site, structures, List.of(),
                (level, out) -> new BtrfsChecks(site, at).check(out));
    }
}
