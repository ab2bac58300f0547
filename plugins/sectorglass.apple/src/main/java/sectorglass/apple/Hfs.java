package sectorglass.apple;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.List;

import sectorglass.disk.HeaderVolume;
import sectorglass.disk.Volume;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeHeader;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/**
 * The master directory block of HFS, big endian, at byte 1024. Source: libblkid superblock prober for HFS (util-linux); fields that
 * it does not use are from memory of "Inside Macintosh: Files".
 */
final class Hfs {

    private Hfs() {
    }

    /** Whether allocation block size and count make sense. */
    static boolean plausible(Window w) {
        long block = w.u32be(20);
        return block >= 512 && block % 512 == 0 && w.u16be(18) > 0 && w.u16be(28) > 0 && w.u8(36) <= 27;
    }

    /** Where the HFS+ volume lies in its wrapper, or null where the fields cannot be. */
    static HfsPlus.Place embedded(VolumeSite site, Window w) {
        long block = w.u32be(20);
        long start = w.u16be(28) * 512L + w.u16be(126) * block;
        long length = w.u16be(128) * block;
        return length < 2048 || start + length > site.bytes() ? null : new HfsPlus.Place(start, length, 1024);
    }

    static Volume open(VolumeSite site) {
        Window w = site.window(1024, 512);
        VolumeFacts facts = new VolumeFacts();
        VolumeFacts.known(() -> {
            long block = w.u32be(20);
            facts.clusterBytes = block;
            facts.bytes = VolumeFacts.product(w.u16be(18), block);
            facts.usedBytes = VolumeFacts.product(Math.max(0, w.u16be(18) - w.u16be(34)), block);
            facts.latest = HfsPlus.date(w.u32be(6));
            facts.uuid = HfsPlus.identity(w, 92 + 24);
            return facts.label = VolumeFacts.text(w, 37, Math.min(27, w.u8(36)), roman());
        });
        if (facts.bytes != null) {
            facts.bytes = Math.min(site.bytes(), facts.bytes + w.u16be(28) * 512L + 1024);
        }
        return new HeaderVolume(facts.info("hfs", site), site,
                List.of(new VolumeHeader(site, 1024, 162).structure("master directory block", "hfs_master_directory_block")), List.of(), (level, out) -> { });
    }

    /** The character set of classic names where the platform has it. */
    static Charset roman() {
        return Charset.isSupported("x-MacRoman") ? Charset.forName("x-MacRoman") : StandardCharsets.ISO_8859_1;
    }
}
