package sectorglass.volumes;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.disk.Finder;
import sectorglass.disk.Sighting;
import sectorglass.disk.SightingBuilder;
import sectorglass.disk.Signature;
import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeSite;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/**
 * Finds XFS, Btrfs, LVM2 and LUKS2 headers, first ones and copies; each tells how far it lies from the start of its volume: the free space
 * header beside an XFS superblock names its allocation group, a Btrfs superblock its own byte, an LVM2 label its sector, a LUKS2
 * header its offset. Sources: libblkid superblock probers (util-linux).
 */
@Component(service = Finder.class)
@ServiceProvider(value = Finder.class, resolution = Resolution.OPTIONAL)
public final class CopyFinder implements Finder {
    private static final Signature XFS = new Signature("XFS superblock", 0, "XFSB".getBytes(StandardCharsets.US_ASCII), -1);
    private static final Signature BTRFS = new Signature("Btrfs superblock", 0x40, "_BHRfS_M".getBytes(StandardCharsets.US_ASCII), -1);
    private static final Signature LVM = new Signature("LVM2 label", 0, "LABELONE".getBytes(StandardCharsets.US_ASCII), -1);
    private static final Signature LUKS = new Signature("LUKS header", 0, new byte[] {0x4C, 0x55, 0x4B, 0x53, (byte) 0xBA, (byte) 0xBE}, -1);
    private static final Signature LUKS_SECOND = new Signature("second LUKS header", 0,
            new byte[] {0x53, 0x4B, 0x55, 0x4C, (byte) 0xBA, (byte) 0xBE}, -1);
    private static final long MOST = 1L << 60;

    @Override
    public List<String> kinds() {
        return List.of("xfs", "btrfs", "lvm2", "luks1", "luks2");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(XFS, BTRFS, LVM, LUKS, LUKS_SECOND);
    }

    @Override
    public Optional<Sighting> look(SectorImage image, long firstByte, Signature signature) {
        try {
            if (firstByte % 512 != 0) {
                return Optional.empty();
            }
            if (signature == XFS) {
                return xfs(image, firstByte);
            }
            return signature == BTRFS ? btrfs(image, firstByte) : signature == LVM ? lvm(image, firstByte) : luks(image, firstByte);
        } catch (UnreadException e) {
            return Optional.empty();
        }
    }

    private static Optional<Sighting> xfs(SectorImage image, long at) {
        Window w = image.window(at, 512);
        if (!XfsSuperblock.plausible(w)) {
            return Optional.empty();
        }
        int sector = w.u16be(102);
        long block = w.u32be(4);
        Boolean sum = XfsSuperblock.version(w) == 5 ? VolumeFacts.known(() -> {
            Window whole = image.window(at, sector);
            return XfsSuperblock.sum(whole, XfsSuperblock.SUM) == whole.u32le(XfsSuperblock.SUM);
        }) : null;
        Window free = image.window(at + sector, 16);
        boolean read = free.isRead(0, 16);
        boolean there = read && free.matches(0, "XAGF") && free.u32be(8) < w.u32be(88);
        long group = there ? free.u32be(8) : 0;
        long start = at - group * w.u32be(84) * block;
        SightingBuilder sighting = new SightingBuilder("xfs", "superblock", at, 512).format("xfs_superblock", Map.of())
                .copy(!there ? Sighting.Copy.UNDECIDED : group == 0 ? Sighting.Copy.PRIMARY : Sighting.Copy.BACKUP)
                .fact("blockBytes", block).fact("blocks", w.u64be(8)).fact("group", there ? group : null).identity(VolumeFacts.uuid(w, 32))
                .tried(sum, Sighting.Reason.CHECKSUM_HOLDS, Sighting.Reason.CHECKSUM_FAILS, null, at)
                .because(true, Sighting.Reason.FIELDS_AGREE).because(true, Sighting.Reason.LONG_SIGNATURE)
                .because(there, Sighting.Reason.TARGET_FOUND).because(read && !there, Sighting.Reason.TARGET_MISSING)
                .because(!read, Sighting.Reason.TARGET_UNREAD);
        if (w.u64be(8) < MOST / block) {
            sighting.vote(group == 0 ? "own-place" : "group-number", start, w.u64be(8) * block, there ? 3 : 1);
        }
        return Optional.of(sighting.build());
    }

    private static Optional<Sighting> btrfs(SectorImage image, long at) {
        Window w = image.window(at, 4096);
        long place = w.u64le(0x30);
        if (place < 0x10000 || place > MOST || !Boolean.TRUE.equals(VolumeFacts.known(() -> BtrfsSuperblock.sumHolds(w)))) {
            return Optional.empty();
        }
        long bytes = w.u64le(0xC9 + 8);
        return Optional.of(new SightingBuilder("btrfs", "superblock", at, 4096).format("btrfs_superblock", Map.of())
                .copy(place == 0x10000 ? Sighting.Copy.PRIMARY : Sighting.Copy.BACKUP).fact("ownByte", place).fact("deviceBytes", bytes)
                .fact("generation", w.u64le(0x48)).identity(VolumeFacts.uuid(w, 0x20)).because(true, Sighting.Reason.CHECKSUM_HOLDS)
                .because(true, Sighting.Reason.LONG_SIGNATURE).because(at >= place, Sighting.Reason.KNOWS_ITS_PLACE)
                .vote("own-byte", at - place, bytes > 0 && bytes < MOST ? bytes : Sighting.UNKNOWN, 3).build());
    }

    private static Optional<Sighting> lvm(SectorImage image, long at) {
        Window w = image.window(at, 512);
        long sector = w.u64le(8);
        if (!w.matches(24, "LVM2 001") || sector < 0 || sector > 3 || LvmVolume.sum(w) != w.u32le(16)) {
            return Optional.empty();
        }
        long bytes = w.u64le(64);
        return Optional.of(new SightingBuilder("lvm2", "label", at, 512).format("lvm2_label", Map.of()).copy(Sighting.Copy.PRIMARY)
                .fact("sector", sector).fact("deviceBytes", bytes).identity(LvmVolume.id(w.ascii(32, 32)))
                .because(true, Sighting.Reason.CHECKSUM_HOLDS).because(true, Sighting.Reason.LONG_SIGNATURE)
                .because(true, Sighting.Reason.KNOWS_ITS_PLACE)
                .vote("own-sector", at - sector * 512, bytes > 0 && bytes < MOST ? bytes : Sighting.UNKNOWN, 3).build());
    }

    private static Optional<Sighting> luks(SectorImage image, long at) {
        Window w = image.window(at, 512);
        int version = w.u16be(6);
        if (version == 1) {
            boolean legal = w.u32be(104) > 0 && w.u32be(108) > 0 && w.u32be(108) <= 512 && w.u8(8) != 0;
            return !legal ? Optional.empty() : Optional.of(new SightingBuilder("luks1", "header", at, 592).format("luks1_header", Map.of())
                    .copy(Sighting.Copy.PRIMARY).fact("payloadSector", w.u32be(104)).because(true, Sighting.Reason.FIELDS_AGREE)
                    .because(true, Sighting.Reason.LONG_SIGNATURE).vote("own-place", at, Sighting.UNKNOWN, 2).build());
        }
        long own = w.u64be(256);
        if (version != 2 || own < 0 || own > MOST || at % image.sectorSize() != 0) {
            return Optional.empty();
        }
        VolumeSite here = new VolumeSite(image, new SectorRange(at / image.sectorSize(), Math.max(1, image.sectors() - at / image.sectorSize())), null);
        Boolean sum = VolumeFacts.known(() -> Luks2.sumHolds(here, 0));
        return Optional.of(new SightingBuilder("luks2", "header", at, 4096).format("luks2_header", Map.of())
                .copy(own == 0 ? Sighting.Copy.PRIMARY : Sighting.Copy.BACKUP).fact("ownByte", own).fact("sequence", w.u64be(16))
                .identity(VolumeFacts.text(w, 168, 40, StandardCharsets.US_ASCII))
                .tried(sum, Sighting.Reason.CHECKSUM_HOLDS, Sighting.Reason.CHECKSUM_FAILS, null, at).because(true, Sighting.Reason.LONG_SIGNATURE)
                .because(true, Sighting.Reason.KNOWS_ITS_PLACE).vote("own-byte", at - own, Sighting.UNKNOWN, Boolean.TRUE.equals(sum) ? 3 : 2).build());
    }
}
