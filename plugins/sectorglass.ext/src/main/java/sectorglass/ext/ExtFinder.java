package sectorglass.ext;

import java.time.Instant;
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
import sectorglass.image.SectorImage;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/**
 * Finds superblocks and their backups. A backup names its block group (s_block_group_nr, Linux kernel documentation, filesystems/ext4),
 * and a group has a fixed place, so every one of them tells where the volume starts.
 */
@Component(service = Finder.class)
@ServiceProvider(value = Finder.class, resolution = Resolution.OPTIONAL)
public final class ExtFinder implements Finder {
    private static final int GROUP = 0x5A;      // u16, s_block_group_nr
    private static final int MOUNTED = 0x2C;    // u32, s_mtime
    private static final int WRITTEN = 0x30;    // u32, s_wtime
    private static final int WRITTEN_HIGH = 0x274;  // u8, s_wtime_hi
    private static final long PRIMARY = 1024;

    @Override
    public List<String> kinds() {
        return List.of("ext2", "ext3", "ext4");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature("ext superblock", 0x38, new byte[] {0x53, (byte) 0xEF}, -1));
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
        Window w = image.window(at, Superblock.LENGTH);
        Superblock sb = Superblock.read(w);
        if (sb.problem() != null || sb.kind() == null) {
            return Optional.empty();
        }
        int group = w.u16le(GROUP);
        long behind = group == 0 ? PRIMARY : (sb.firstDataBlock() + group * sb.blocksPerGroup()) * sb.blockSize();
        long start = at - behind;
        Boolean sum = sb.sums() && w.isRead(0, Superblock.LENGTH) ? Superblock.sum(w) == w.u32le(0x3FC) : null;
        Boolean target = descriptors(image, start, sb);
        if (sum == null && Boolean.FALSE.equals(target) && !twin(image, start, sb, w)) {
            return Optional.empty();
        }
        long bytes = sb.blocks() * sb.blockSize();
        return Optional.of(new SightingBuilder(sb.kind(), "superblock", at, Superblock.LENGTH).format("ext_superblock", Map.of())
                .copy(group == 0 ? Sighting.Copy.PRIMARY : Sighting.Copy.BACKUP).fact("group", (long) group)
                .fact("blockBytes", (long) sb.blockSize()).fact("blocks", sb.blocks()).fact("blocksPerGroup", sb.blocksPerGroup())
                .fact("inodes", sb.inodes()).identity(ExtVolume.uuid(sb.uuid())).latest(written(w))
                .tried(sum, Sighting.Reason.CHECKSUM_HOLDS, Sighting.Reason.CHECKSUM_FAILS, "ext.sb.checksum", at + 0x3FC)
                .because(true, Sighting.Reason.FIELDS_AGREE).because(group > 0 && start >= 0, Sighting.Reason.KNOWS_ITS_PLACE)
                .because(target == null, Sighting.Reason.TARGET_UNREAD).because(Boolean.TRUE.equals(target), Sighting.Reason.TARGET_FOUND)
                .because(Boolean.FALSE.equals(target), Sighting.Reason.TARGET_MISSING)
                .vote(group == 0 ? "own-place" : "group-number", start, bytes, Boolean.TRUE.equals(target) || Boolean.TRUE.equals(sum) ? 3 : 2)
                .build());
    }

    /**
     * Whether the descriptor of the group 0 names bitmaps and an inode table inside the volume; null where it was not read. It follows the
     * block of the first superblock.
     */
    private static Boolean descriptors(SectorImage image, long start, Superblock sb) {
        long at = start + (sb.firstDataBlock() + 1) * sb.blockSize();
        if (sb.hasIncompat(Features.META_BG) || at < 0 || at > image.bytes() - 32) {
            return null;
        }
        Window d = image.window(at, 32);
        if (!d.isRead(0, 32)) {
            return null;
        }
        long[] blocks = {d.u32le(0), d.u32le(4), d.u32le(8)};
        for (long block : blocks) {
            if (block <= sb.firstDataBlock() || block >= sb.blocks()) {
                return false;
            }
        }
        return blocks[0] != blocks[1] && blocks[1] != blocks[2];
    }

    /** Whether the superblock of another group with the same UUID stands where this one puts it. */
    private static boolean twin(SectorImage image, long start, Superblock sb, Window own) {
        long[] places = {PRIMARY, (sb.firstDataBlock() + sb.blocksPerGroup()) * sb.blockSize(),
            (sb.firstDataBlock() + 3 * sb.blocksPerGroup()) * sb.blockSize()};
        for (long place : places) {
            long at = start + place;
            if (at >= 0 && at != own.start() && at <= image.bytes() - 512) {
                Window other = image.window(at, 512);
                if (other.isRead(0, 512) && other.u16le(0x38) == Superblock.MAGIC
                        && java.util.Arrays.equals(other.bytes(0x68, 16), own.bytes(0x68, 16))) {
                    return true;
                }
            }
        }
        return false;
    }

    private static Instant written(Window w) {
        long high = w.isRead(WRITTEN_HIGH, 1) ? w.u8(WRITTEN_HIGH) : 0;
        long when = Math.max(w.u32le(WRITTEN) | high << 32, w.u32le(MOUNTED));
        return when == 0 ? null : Instant.ofEpochSecond(when);
    }
}
