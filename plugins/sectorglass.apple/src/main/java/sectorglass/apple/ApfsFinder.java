package sectorglass.apple;

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
import sectorglass.image.SectorImage;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/**
 * Finds APFS container superblocks: the one in block 0 and those of the checkpoint descriptor area, whose place the superblock names
 * (Apple File System Reference, "Container", nx_xp_desc_base). Only one whose checksum holds is taken.
 */
@Component(service = Finder.class)
@ServiceProvider(value = Finder.class, resolution = Resolution.OPTIONAL)
public final class ApfsFinder implements Finder {
    private static final int BLOCK_SIZE = 0x24;     // u32
    private static final int BLOCKS = 0x28;         // u64
    private static final int UUID = 0x48;           // 16 bytes
    private static final int AREA_BLOCKS = 0x68;    // u32
    private static final int AREA = 0x70;           // s64
    private static final int TRANSACTION = 0x10;    // u64
    private static final int MOST_AREA = 4096;

    @Override
    public List<String> kinds() {
        return List.of("apfs");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("APFS container superblock", 32, "NXSB".getBytes(StandardCharsets.US_ASCII), -1));
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
        Window head = image.window(at, 512);
        long size = head.u32le(BLOCK_SIZE);
        long blocks = head.u64le(BLOCKS);
        if (!VolumeFacts.power(size, 4096, 65536) || blocks <= 0 || blocks > Long.MAX_VALUE / size / 2) {
            return Optional.empty();
        }
        Window whole = image.window(at, (int) size);
        if (!whole.isRead(0, (int) size) || !ApfsObject.sumHolds(whole)) {
            return Optional.empty();
        }
        long base = head.u64le(AREA);
        long count = Math.min(MOST_AREA, head.u32le(AREA_BLOCKS) & 0x7FFFFFFF);
        boolean areaLegal = base > 0 && base < blocks && count > 0;
        long start = areaLegal && !object(image, at + base * size, size) ? inArea(image, at, base, count, size) : at;
        SightingBuilder sighting = new SightingBuilder("apfs", "container-superblock", at, (int) size)
                .format("apfs_container_superblock", Map.of()).copy(start == at ? Sighting.Copy.PRIMARY : Sighting.Copy.BACKUP)
                .fact("blockBytes", size).fact("blocks", blocks).fact("transaction", head.u64le(TRANSACTION)).identity(VolumeFacts.uuid(head, UUID))
                .because(true, Sighting.Reason.CHECKSUM_HOLDS).because(true, Sighting.Reason.LONG_SIGNATURE)
                .because(areaLegal && start >= 0 && object(image, start + base * size, size), Sighting.Reason.TARGET_FOUND);
        if (start >= 0) {
            sighting.vote(start == at ? "own-place" : "descriptor-area", start, blocks * size, 3);
        }
        return Optional.of(sighting.build());
    }

    /** The start of the container if the superblock stands in the descriptor area: its first block is an object then; -1 if none fits. */
    private static long inArea(SectorImage image, long at, long base, long count, long size) {
        for (long i = 0; i < count; i++) {
            long start = at - (base + i) * size;
            if (start < 0) {
                return -1;
            }
            if (object(image, start, size) && image.window(start + 32, 4).matches(0, "NXSB")
                    || object(image, start + base * size, size) && (i == 0 || object(image, start + (base + i - 1) * size, size))
                    && !object(image, start + (base - 1) * size, size)) {
                return start;
            }
        }
        return -1;
    }

    /** Whether an object whose checksum holds stands there. */
    private static boolean object(SectorImage image, long at, long size) {
        if (at < 0 || at > image.bytes() - size) {
            return false;
        }
        Window w = image.window(at, (int) size);
        return w.isRead(0, (int) size) && !w.filled(0, 64, 0) && ApfsObject.sumHolds(w);
    }
}
