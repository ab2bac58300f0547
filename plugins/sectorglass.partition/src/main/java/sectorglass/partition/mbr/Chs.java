package sectorglass.partition.mbr;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/**
 * Cylinder, head and sector as MBR slots pack them into three bytes. Source: util-linux include/pt-mbr.h; Linux kernel
 * block/partitions/msdos.c. The three bytes are kept as one number, the first byte highest.
 */
public final class Chs {
    /** 1023/254/63: what writers store for an address that does not fit. */
    public static final int MARKER = 0xFEFFFF;
    /** 1023/255/63: the same, as UEFI 2.10, section 5.2.3 has it. */
    public static final int UEFI_MARKER = 0xFFFFFF;
    private static final int NONE = 0;

    /**
     * Heads and sectors that an address may have been counted with.
     *
     * @param heads heads per cylinder
     * @param sectors sectors per track
     */
    record Geometry(int heads, int sectors) implements Comparable<Geometry> {
        @Override
        public int compareTo(Geometry other) {
            return heads != other.heads ? Integer.compare(heads, other.heads) : Integer.compare(sectors, other.sectors);
        }
    }

    private static final List<Geometry> COMMON = List.of(new Geometry(255, 63), new Geometry(16, 63), new Geometry(240, 63),
            new Geometry(128, 63), new Geometry(64, 32));

    private Chs() {
    }

    /** Cylinder 0 to 1023. */
    public static int cylinder(int packed) {
        return (packed >> 8 & 0xC0) << 2 | packed & 0xFF;
    }

    /** Head 0 to 255. */
    public static int head(int packed) {
        return packed >> 16;
    }

    /** Sector 0 to 63; 0 is no address. */
    public static int sector(int packed) {
        return packed >> 8 & 0x3F;
    }

    /** The three bytes for a sector number, or the marker where it does not fit. */
    public static int pack(long lba, int heads, int sectors) {
        long cylinder = lba / ((long) heads * sectors);
        if (cylinder > 1023) {
            return MARKER;
        }
        int head = (int) (lba / sectors % heads);
        int sector = (int) (lba % sectors) + 1;
        return head << 16 | (sector | (int) (cylinder >> 8) << 6) << 8 | (int) (cylinder & 0xFF);
    }

    /** As C/H/S. */
    public static String text(int packed) {
        return cylinder(packed) + "/" + head(packed) + "/" + sector(packed);
    }

    /** Geometries that the used slots may have been written with: the common ones, and those their own ends suggest. */
    static Set<Geometry> geometries(List<Slot> slots) {
        Set<Geometry> all = new TreeSet<>(COMMON);
        for (Slot slot : slots) {
            int end = slot.lastChs();
            if (slot.used() && end != MARKER && end != UEFI_MARKER && sector(end) != 0) {
                all.add(new Geometry(head(end) + 1, sector(end)));
            }
        }
        return all;
    }

    /** Whether both addresses of a slot mean its sectors in one of the geometries, or are markers or left out. */
    static boolean agrees(Slot slot, long base, Set<Geometry> geometries) {
        long first = base + slot.first();
        long last = first + slot.count() - 1;
        return geometries.stream().anyMatch(g -> fits(slot.firstChs(), first, g) && fits(slot.lastChs(), last, g));
    }

    private static boolean fits(int packed, long lba, Geometry geometry) {
        if (packed == NONE) {
            return true;
        }
        int right = pack(lba, geometry.heads(), geometry.sectors());
        return packed == right || right == MARKER && packed == UEFI_MARKER;
    }
}
