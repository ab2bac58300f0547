package sectorglass.partition.repair;

import sectorglass.disk.SectorEdit;
import sectorglass.partition.mbr.Chs;
import sectorglass.partition.mbr.MbrTable;
import sectorglass.partition.mbr.Slot;

/** Writes slots of an MBR or EBR into sectors that are being re-made. */
final class SlotBytes {
    static final int SLOTS = 446;
    static final int SIGNATURE = 510;
    private static final int HEADS = 255;
    private static final int TRACK = 63;

    private SlotBytes() {
    }

    /**
     * A whole slot.
     *
     * @param index 1 to 4
     * @param base LBA from which {@code first} counts, for the CHS fields
     */
    static void put(SectorEdit edit, int index, int active, int type, long base, long first, long count, String why, String chosen) {
        int at = SLOTS + (index - 1) * Slot.SIZE;
        edit.put(at, chosen, active);
        chs(edit, at + 1, base + first, chosen);
        edit.put(at + 4, chosen, type);
        chs(edit, at + 5, base + first + count - 1, chosen);
        edit.le(at + 8, 4, first, why);
        edit.le(at + 12, 4, count, why);
    }

    static void clear(SectorEdit edit, int index, String why) {
        edit.zero(SLOTS + (index - 1) * Slot.SIZE, Slot.SIZE, why);
    }

    static void sign(SectorEdit edit, String why) {
        edit.put(SIGNATURE, why, 0x55, 0xAA);
    }

    private static void chs(SectorEdit edit, int at, long lba, String why) {
        int packed = Chs.pack(lba, HEADS, TRACK);
        edit.put(at, why, packed >> 16, packed >> 8, packed);
    }

    /** The first 512 bytes of a sector, to be re-made. */
    static SectorEdit sector(sectorglass.image.SectorImage image, long lba) {
        return new SectorEdit(image, Math.multiplyExact(lba, image.sectorSize()), Math.max(MbrTable.SECTOR_BYTES, image.sectorSize()));
    }
}
