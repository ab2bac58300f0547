package sectorglass.partition.mbr;

import java.util.Locale;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRange;
import sectorglass.image.Window;

/**
 * One slot of an MBR or EBR, as stored.
 *
 * @param index 1 to 4
 * @param at image byte of its first byte
 * @param active the active flag as stored
 * @param firstChs head, sector with cylinder bits 8 and 9, cylinder
 * @param type type code
 * @param lastChs as firstChs
 * @param first first sector, relative as the table defines
 * @param count number of sectors
 */
public record Slot(int index, long at, int active, int firstChs, int type, int lastChs, long first, long count) {
    /** Bytes per slot. */
    public static final int SIZE = 16;
    /** The protective type. */
    public static final int PROTECTIVE = 0xEE;

    static Slot read(Window sector, int offset, int index) {
        return new Slot(index, sector.address(offset), sector.u8(offset), chs(sector, offset + 1), sector.u8(offset + 4),
                chs(sector, offset + 5), sector.u32le(offset + 8), sector.u32le(offset + 12));
    }

    private static int chs(Window sector, int at) {
        return sector.u8(at) << 16 | sector.u8(at + 1) << 8 | sector.u8(at + 2);
    }

    /** A slot with type 0 or size 0 is not in use (UEFI 2.10, section 5.2.1). */
    public boolean used() {
        return type != 0 && count != 0;
    }

    /** Whether all 16 bytes are zero. */
    public boolean zero() {
        return active == 0 && firstChs == 0 && type == 0 && lastChs == 0 && first == 0 && count == 0;
    }

    /** Whether the active flag is one of the two legal values. */
    public boolean activeLegal() {
        return active == 0 || active == 0x80;
    }

    /** Whether it names an extended container: 05, 0F or 85. */
    public boolean container() {
        return used() && (type == 0x05 || type == 0x0F || type == 0x85);
    }

    /** Whether it is a protective slot. */
    public boolean protective() {
        return type == PROTECTIVE;
    }

    /** Its sectors, relative as the table defines. */
    public SectorRange range() {
        return new SectorRange(first, count);
    }

    /** Its sectors moved by a base. */
    public SectorRange range(long base) {
        return new SectorRange(base + first, count);
    }

    /** Type code as two hex digits, lower case. */
    public String typeCode() {
        return String.format(Locale.ROOT, "%02x", type);
    }

    /** Image bytes of the whole slot. */
    public ByteRange where() {
        return new ByteRange(at, SIZE);
    }

    /** Image bytes of a field. */
    public ByteRange where(int offset, int length) {
        return new ByteRange(at + offset, length);
    }
}
