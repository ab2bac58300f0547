package sectorglass.partition.label;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.MapEntry;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.Window;
import sectorglass.partition.TypeTable;

/**
 * A BSD disklabel, little endian. Offsets in bytes from its magic number (util-linux include/pt-bsd.h).
 *
 * @param bytes the label, as long as 16 slots take
 * @param slice sectors of the slice that holds it, or of the whole disk
 * @param nested whether it lies in a slice of another map
 */
record BsdLabel(Window bytes, SectorRange slice, boolean nested) {
    static final int SECTOR_BYTES = 40;
    static final int MAGIC_2 = 132;
    static final int CHECKSUM = 136;
    static final int COUNT = 138;
    static final int SLOTS = 148;
    static final int SLOT = 16;
    static final int MAX_SLOTS = 16;
    static final int LENGTH = SLOTS + MAX_SLOTS * SLOT;
    private static final int WHOLE = 2;
    private static final long MAGIC = 0x82564557L;

    /** The label at an image byte, or null where none was read there. */
    static BsdLabel at(SectorImage image, long firstByte, SectorRange slice, boolean nested) {
        Window window = image.window(firstByte, LENGTH);
        if (!window.isRead(0, LENGTH) || window.u32le(0) != MAGIC) {
            return null;
        }
        BsdLabel label = new BsdLabel(window, slice, nested);
        return label.magicTwice() || label.countLegal() && (label.xor() == 0 || label.sectorBytesLegal()) ? label : null;
    }

    boolean magicTwice() {
        return bytes.u32le(MAGIC_2) == MAGIC;
    }

    private boolean sectorBytesLegal() {
        long size = bytes.u32le(SECTOR_BYTES);
        return size >= 512 && size <= 4096 && (size & size - 1) == 0;
    }

    int count() {
        return bytes.u16le(COUNT);
    }

    boolean countLegal() {
        return count() >= 1 && count() <= MAX_SLOTS;
    }

    /** XOR of all 16-bit words, the checksum among them; 0 in a sound label. The count must be legal. */
    int xor() {
        int all = 0;
        for (int at = 0; at < SLOTS + count() * SLOT; at += 2) {
            all ^= bytes.u16le(at);
        }
        return all;
    }

    /** The used slots; starts count from the slice where slot c starts at 0, else from the disk (Linux block/partitions/msdos.c). */
    List<MapEntry> entries() {
        long base = nested && bytes.u32le(SLOTS + WHOLE * SLOT + 4) == 0 ? slice.first() : 0;
        List<MapEntry> entries = new ArrayList<>();
        for (int i = 0; i < Math.min(count(), MAX_SLOTS); i++) {
            int at = SLOTS + i * SLOT;
            long sectors = bytes.u32le(at);
            int type = bytes.u8(at + 12);
            if (sectors == 0 || type == 0) {
                continue;
            }
            SectorRange range = new SectorRange(base + bytes.u32le(at + 4), sectors);
            boolean whole = i == WHOLE && range.contains(slice);
            String code = String.format(Locale.ROOT, "%02x", type);
            entries.add(new MapEntry(i + 1, range, code, TypeTable.BSD.name(code), null, null, false,
                    whole ? MapEntry.Use.WHOLE : MapEntry.Use.PARTITION, bytes.range(at, SLOT), TypeTable.BSD.roles(code)));
        }
        return entries;
    }

    ByteRange where() {
        return bytes.range(0, SLOTS + Math.min(MAX_SLOTS, Math.max(1, count())) * SLOT);
    }
}
