package sectorglass.fat;

import java.util.Arrays;
import java.util.Optional;

import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/**
 * Infers the layout of a FAT12 or FAT16 volume whose boot sector is lost: two equal runs that start like a FAT, a directory after
 * them, and entries in it that confirm the size of a cluster. Common practice, no source.
 */
final class LayoutGuess {

    private static final int[] SECTOR_SIZES = {512, 4096, 1024, 2048};
    /** Sectors before the first FAT that are tried: formatters write 1, or a power of two to align the data. */
    private static final int[] RESERVED = {1, 2, 4, 6, 8, 16, 32, 64};
    /** A FAT of FAT16 has at most 65524 + 2 entries. */
    private static final int MOST_FAT_BYTES = (65526 * 2 + 4095) / 4096 * 4096;
    private static final int[] SLOTS = {512, 224, 112, 64, 128, 240, 256, 1024};
    private static final int COMPARED = 64;

    private final VolumeSite site;

    private final boolean strict;

    private LayoutGuess(VolumeSite site, boolean strict) {
        this.site = site;
        this.strict = strict;
    }

    /**
     * The layout, if what stands at the site determines one.
     *
     * @param strict whether both FATs must be equal throughout
     */
    static Optional<Geometry> at(VolumeSite site, boolean strict) {
        return new LayoutGuess(site, strict).find();
    }

    private Optional<Geometry> find() {
        Geometry found = withSectors(site.image().sectorSize());
        for (int i = 0; found == null && i < SECTOR_SIZES.length; i++) {
            found = withSectors(SECTOR_SIZES[i]);
        }
        return Optional.ofNullable(found);
    }

    private Geometry withSectors(int size) {
        for (int reserved : RESERVED) {
            byte[] head = fatHead((long) reserved * size);
            Geometry found = head == null ? null : second(size, reserved, head);
            if (found != null) {
                return found;
            }
        }
        return null;
    }

    /** The first bytes of a FAT, or null: media byte, then all ones as far as entries 0 and 1 reach. */
    private byte[] fatHead(long at) {
        if (!site.has(at, COMPARED)) {
            return null;
        }
        Window window = site.window(at, COMPARED);
        boolean head = Recognition.legalMedia(window.u8(0)) && window.u8(1) == 0xFF && window.u8(2) == 0xFF;
        return head ? window.bytes(0, COMPARED) : null;
    }

    private Geometry second(int size, int reserved, byte[] head) {
        int most = MOST_FAT_BYTES / size;
        for (int sectors = 1; sectors <= most; sectors++) {
            long at = (long) (reserved + sectors) * size;
            byte[] other = fatHead(at);
            if (other != null && Arrays.equals(head, other)) {
                return layout(size, reserved, sectors);
            }
        }
        return null;
    }

    private Geometry layout(int size, int reserved, int fatSectors) {
        long root = (long) (reserved + 2 * fatSectors) * size;
        if (!site.has(root, 32) || !directory(site.window(root, 32))) {
            return null;
        }
        long total = site.bytes() / size;
        for (int slots : SLOTS) {
            int rootSectors = (slots * 32 + size - 1) / size;
            long firstData = reserved + 2L * fatSectors + rootSectors;
            for (int perCluster = 1; perCluster <= 128; perCluster *= 2) {
                long clusters = (total - firstData) / perCluster;
                FatKind kind = FatKind.byCount(Math.max(0, clusters));
                if (clusters < 1 || kind == FatKind.FAT32 || kind.tableBytes(clusters + 2) > (long) fatSectors * size) {
                    continue;
                }
                Geometry candidate = new Geometry(kind, size, perCluster, reserved, 2, fatSectors, rootSectors, slots, 0, total,
                        clusters);
                if (LayoutProof.of(site, candidate).holds() && (!strict || LayoutProof.sameTables(site, candidate))) {
                    return candidate;
                }
            }
        }
        return null;
    }

    /** A first slot that could be one of a root directory: label, long name or 8.3 name with plausible attributes. */
    private static boolean directory(Window slot) {
        int first = slot.u8(0);
        int attributes = slot.u8(11);
        return first >= 0x20 && (attributes & 0xC0) == 0 && (attributes == 0x0F || attributes == 0x08 || (attributes & 0x08) == 0);
    }
}
