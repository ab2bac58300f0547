package sectorglass.volumes;

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
 * Finds md superblocks of version 1, which name their own sector in the member (super_offset, Linux kernel md_p.h), and of version 0.90,
 * which lie in the last whole 64 KiB but one of the member and do not say where it starts.
 */
@Component(service = Finder.class)
@ServiceProvider(value = Finder.class, resolution = Resolution.OPTIONAL)
public final class MdFinder implements Finder {
    private static final int SUPER_OFFSET = 144;    // u64, sectors
    private static final int DATA_OFFSET = 128;     // u64, sectors
    private static final int DATA_SIZE = 136;       // u64, sectors
    private static final int UPDATED = 192;         // u64, low 40 bits seconds
    private static final long MOST = 1L << 50;

    @Override
    public List<String> kinds() {
        return List.of("md");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("md superblock", 0, new byte[] {(byte) 0xFC, 0x4E, 0x2B, (byte) 0xA9}, -1));
    }

    @Override
    public Optional<Sighting> look(SectorImage image, long firstByte, Signature signature) {
        try {
            return superblock(image, firstByte);
        } catch (UnreadException e) {
            return Optional.empty();
        }
    }

    private static Optional<Sighting> superblock(SectorImage image, long at) {
        if (at % image.sectorSize() != 0) {
            return Optional.empty();
        }
        VolumeSite here = new VolumeSite(image, new SectorRange(at / image.sectorSize(), 8192 / 512), null);
        Window w = image.window(at, 512);
        boolean old = w.u32le(4) == 0;
        MdSuperblock block = new MdSuperblock(here, 0, old ? "0.90" : "1", false);
        if (!block.present()) {
            return Optional.empty();
        }
        Boolean sum = VolumeFacts.known(block::sumHolds);
        if (!Boolean.TRUE.equals(sum)) {
            return Optional.empty();
        }
        SightingBuilder sighting = new SightingBuilder("md", "superblock", at, 4096).format(old ? "md_superblock_0_90" : "md_superblock_1", Map.of())
                .copy(Sighting.Copy.PRIMARY).fact("level", (long) block.level()).fact("disks", block.disks()).identity(block.uuid())
                .because(true, Sighting.Reason.CHECKSUM_HOLDS).because(true, Sighting.Reason.LONG_SIGNATURE);
        if (!old && w.u64le(SUPER_OFFSET) >= 0 && w.u64le(SUPER_OFFSET) < MOST) {
            long start = at - w.u64le(SUPER_OFFSET) * 512;
            long data = w.u64le(DATA_OFFSET);
            long size = w.u64le(DATA_SIZE);
            boolean legal = data >= 0 && data < MOST && size > 0 && size < MOST;
            long end = !legal ? Sighting.UNKNOWN : w.u64le(SUPER_OFFSET) > data ? (w.u64le(SUPER_OFFSET) + 16) * 512 : (data + size) * 512;
            sighting.fact("dataOffset", data).fact("dataSectors", size).latest(java.time.Instant.ofEpochSecond(w.u64le(UPDATED) & 0xFFFFFFFFFFL))
                    .because(legal, Sighting.Reason.FIELDS_AGREE).because(start >= 0, Sighting.Reason.KNOWS_ITS_PLACE)
                    .vote("super-offset", start, end, 3);
        }
        return Optional.of(sighting.build());
    }
}
