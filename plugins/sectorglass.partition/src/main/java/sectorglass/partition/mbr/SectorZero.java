package sectorglass.partition.mbr;

import java.util.List;

import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;

/**
 * What LBA 0 is. A boot sector of a volume and an MBR both end in 55 AA; the order of questions follows libblkid, and damaged tables
 * are still taken for tables where most of their fields make sense.
 *
 * @param kind the answer
 * @param table the table, where the kind has one; else null
 * @param volume kind of volume whose boot sector it is, in words, or null
 * @param missing the sectors that keep the question open; empty unless {@link Kind#UNREAD}
 */
public record SectorZero(Kind kind, MbrTable table, String volume, SectorRanges missing) {

    /** What LBA 0 can be. */
    public enum Kind {
        /** Not read: nothing can be said. */
        UNREAD,
        /** One byte repeated. */
        BLANK,
        /** An MBR. */
        MBR,
        /** The boot sector of a volume. */
        VOLUME,
        /** Reads as both. */
        AMBIGUOUS,
        /** Something else. */
        OTHER
    }

    /** Looks at LBA 0. */
    public static SectorZero of(SectorImage image) {
        Window sector = image.window(0, MbrTable.LENGTH);
        if (!sector.isRead(0, MbrTable.LENGTH)) {
            return new SectorZero(Kind.UNREAD, null, null, sector.missing(0, MbrTable.LENGTH));
        }
        if (sector.filled(0, MbrTable.LENGTH, sector.u8(0))) {
            return new SectorZero(Kind.BLANK, null, null, SectorRanges.EMPTY);
        }
        MbrTable table = MbrTable.of(sector, 0);
        boolean foreign = sector.matches(0, 0x0B, 0xE5, 0xA9, 0x41) || sector.matches(508, 0xDA, 0xBE);
        boolean apple = sector.matches(0, 0x45, 0x52);
        String volume = BootSector.kind(sector);
        Kind kind;
        if (volume != null) {
            boolean both = table.signed() && (strict(table, image) || fillsImage(table, image));
            kind = both ? Kind.AMBIGUOUS : Kind.VOLUME;
        } else if (foreign) {
            kind = Kind.OTHER;
        } else if (apple) {
            kind = table.signed() && strict(table, image) ? Kind.MBR : Kind.OTHER;
        } else {
            kind = plausible(table, image) ? Kind.MBR : Kind.OTHER;
        }
        return new SectorZero(kind, kind == Kind.MBR || kind == Kind.AMBIGUOUS ? table : null, volume, SectorRanges.EMPTY);
    }

    /** Whether an MBR, possibly a damaged one, stands here. */
    public boolean isTable() {
        return table != null;
    }

    /** The protective slot, or null. */
    public Slot protective() {
        return table == null ? null : table.protective();
    }

    /** Whether there are partitions of the MBR's own and no protective slot. */
    public boolean onlyOrdinary() {
        return table != null && table.protective() == null && !table.ordinary().isEmpty();
    }

    /** Whether a protective slot stands beside ordinary ones. */
    public boolean hybrid() {
        return protective() != null && !table.ordinary().isEmpty();
    }

    private static boolean strict(MbrTable table, SectorImage image) {
        return table.slots().stream().allMatch(Slot::activeLegal) && table.slots().stream().anyMatch(Slot::used)
                && table.slots().stream().filter(Slot::used).allMatch(slot -> inside(slot, image));
    }

    private static boolean inside(Slot slot, SectorImage image) {
        return slot.first() >= 1 && slot.first() + slot.count() <= image.sectors();
    }

    /** A slot from sector 0 over the whole image, as mkfs.fat writes it with its option for an MBR-like boot sector. */
    private static boolean fillsImage(MbrTable table, SectorImage image) {
        return table.slots().stream().allMatch(Slot::activeLegal)
                && table.slots().stream().anyMatch(slot -> wholeImage(slot, image));
    }

    /** Whether the slot starts at 0 and covers the whole image. */
    static boolean wholeImage(Slot slot, SectorImage image) {
        return slot.used() && slot.first() == 0 && slot.count() >= image.sectors();
    }

    private static boolean plausible(MbrTable table, SectorImage image) {
        Slot protective = table.protective();
        if (protective != null && protective.first() == 1) {
            return true;
        }
        List<Slot> illegal = table.slots().stream().filter(slot -> !slot.activeLegal()).toList();
        if (!table.signed()) {
            return strict(table, image) && apart(table) && table.slots().stream().allMatch(slot -> slot.used() || slot.zero());
        }
        boolean good = table.slots().stream().anyMatch(slot -> slot.used() && slot.activeLegal() && inside(slot, image));
        boolean rest = table.slots().stream().filter(slot -> slot.used() && slot.activeLegal()).allMatch(slot -> slot.first() >= 1);
        return illegal.isEmpty() || illegal.size() == 1 && (good || rest) || illegal.size() == 2 && good;
    }

    private static boolean apart(MbrTable table) {
        List<SectorRange> ranges = table.slots().stream().filter(Slot::used).map(Slot::range).toList();
        for (int i = 0; i < ranges.size(); i++) {
            for (int k = 0; k < i; k++) {
                if (ranges.get(i).overlaps(ranges.get(k))) {
                    return false;
                }
            }
        }
        return true;
    }
}
