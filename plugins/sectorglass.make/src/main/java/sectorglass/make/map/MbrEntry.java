package sectorglass.make.map;

import sectorglass.make.write.Block;

/** Writes one 16-byte entry of an MBR or an extended boot record (UEFI 2.10, section 5.2.1). */
final class MbrEntry {
    private static final int HEADS = 255;
    private static final int SECTORS_PER_TRACK = 63;
    /** First LBA that cylinder, head and sector cannot tell: 1024 cylinders of the fallback geometry. */
    private static final long CHS_END = 1024L * HEADS * SECTORS_PER_TRACK;

    private MbrEntry() {
    }

    /**
     * Writes an entry.
     *
     * @param start as stored: relative to whatever the reader adds
     * @param firstLba where the partition really begins; the cylinder-head-sector values follow from it
     */
    static void write(Block sector, int at, boolean active, int type, long start, long firstLba, long sectors) {
        if (start > 0xFFFFFFFFL || sectors > 0xFFFFFFFFL) {
            throw new IllegalArgumentException("an MBR entry has 32 bits: start=" + start + " sectors=" + sectors);
        }
        sector.u8(at, active ? 0x80 : 0).u8(at + 4, type).u32(at + 8, start).u32(at + 12, sectors);
        chs(sector, at + 1, firstLba);
        chs(sector, at + 5, firstLba + sectors - 1);
    }

    /** Packs cylinder, head and sector, or FE FF FF where the LBA is out of their reach (util-linux, pt-mbr.h). */
    static void chs(Block sector, int at, long lba) {
        if (lba >= CHS_END) {
            sector.u8(at, 0xFE).u8(at + 1, 0xFF).u8(at + 2, 0xFF);
            return;
        }
        int cylinder = (int) (lba / (HEADS * SECTORS_PER_TRACK));
        int head = (int) (lba / SECTORS_PER_TRACK % HEADS);
        int number = (int) (lba % SECTORS_PER_TRACK) + 1;
        sector.u8(at, head).u8(at + 1, number | cylinder >> 2 & 0xC0).u8(at + 2, cylinder);
    }
}
