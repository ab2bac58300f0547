package sectorglass.partition.mbr;

import java.util.ArrayList;
import java.util.List;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;

/**
 * The table of an MBR or EBR sector.
 *
 * @param lba where the sector lies
 * @param start image byte of the sector
 * @param diskSignature bytes 440 to 443
 * @param reserved bytes 444 and 445
 * @param slots four
 * @param signature bytes 510 and 511 as a big-endian number: 0x55AA where legal
 */
public record MbrTable(long lba, long start, long diskSignature, int reserved, List<Slot> slots, int signature) {
    /** Bytes that the table takes, whatever the sector size. */
    public static final int SECTOR_BYTES = 512;
    static final int LENGTH = SECTOR_BYTES;
    static final int DISK_SIGNATURE = 440;
    static final int RESERVED = 444;
    static final int SLOTS = 446;
    static final int SIGNATURE = 510;

    /** Reads the table; throws {@code UnreadException} where the sector was not read. */
    public static MbrTable read(SectorImage image, long lba) {
        return of(image.window(Math.multiplyExact(lba, image.sectorSize()), LENGTH), lba);
    }

    static MbrTable of(Window sector, long lba) {
        List<Slot> slots = new ArrayList<>();
        for (int i = 0; i < 4; i++) {
            slots.add(Slot.read(sector, SLOTS + i * Slot.SIZE, i + 1));
        }
        return new MbrTable(lba, sector.start(), sector.u32le(DISK_SIGNATURE), sector.u16le(RESERVED), List.copyOf(slots),
                sector.u16be(SIGNATURE));
    }

    /** Whether 55 AA stands at the end. */
    public boolean signed() {
        return signature == 0x55AA;
    }

    /** Image bytes of the 512 bytes. */
    public ByteRange where() {
        return new ByteRange(start, LENGTH);
    }

    /** Image bytes of a field. */
    public ByteRange where(int offset, int length) {
        return new ByteRange(start + offset, length);
    }

    /** The protective slot that leads to LBA 1, else the first protective one, else null. */
    public Slot protective() {
        Slot found = null;
        for (Slot slot : slots) {
            if (slot.protective() && (found == null || found.first() != 1 && slot.first() == 1)) {
                found = slot;
            }
        }
        return found;
    }

    /** Slots in use that are not protective. */
    public List<Slot> ordinary() {
        return slots.stream().filter(slot -> slot.used() && !slot.protective()).toList();
    }
}
