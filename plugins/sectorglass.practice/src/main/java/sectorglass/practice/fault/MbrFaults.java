package sectorglass.practice.fault;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

import sectorglass.make.PartitionDescription;
import sectorglass.make.Slot;

/** Faults of LBA 0 (UEFI 2.10, section 5.2.1; Linux kernel block/partitions/msdos.c). */
final class MbrFaults {
    static final int FIRST = 446;
    static final int ENTRY = 16;
    private static final int ACTIVE = 0x80;

    private MbrFaults() {
    }

    static List<FaultKind> kinds() {
        return List.of(
                kind("mbr.active-byte", 1, "active", MbrFaults::activeByte),
                kind("mbr.active-count", 1, "active", MbrFaults::activeCount),
                kind("mbr.disk-signature", 1, "signature", site -> site.put(440, 4, 0)),
                kind("mbr.reserved", 2, "reserved", site -> site.put(444, 2, site.someByte() << 8 | 0x11)),
                kind("mbr.unused-slot", 2, "unused", MbrFaults::unused),
                kind("mbr.partition-range", 1, "slots", MbrFaults::range),
                kind("mbr.partition-overlap", 2, "slots", MbrFaults::overlap),
                kind("mbr.chs", 3, "slots", MbrFaults::chs));
    }

    private static FaultKind kind(String check, int level, String zone, FaultKind.Planting planting) {
        return new FaultKind(check, check, level, Area.MBR, zone, planting);
    }

    /** Slots of LBA 0 that are in use, in their order. */
    private static List<PartitionDescription> slots(Site site) {
        return site.made().description().partitions().stream().filter(p -> p.slot() != Slot.LOGICAL).toList();
    }

    private static long slot(int index) {
        return FIRST + (long) ENTRY * index;
    }

    private static void activeByte(Site site) throws IOException {
        site.put(slot(site.below(slots(site).size())), 1, 1 + site.below(0x7F));
    }

    private static void activeCount(Site site) throws IOException {
        List<Integer> others = new ArrayList<>();
        int active = -1;
        for (int i = 0; i < slots(site).size(); i++) {
            if (slots(site).get(i).active()) {
                active = i;
            } else {
                others.add(i);
            }
        }
        if (active < 0) {
            throw new FaultKind.NoPlaceException("no slot is active");
        }
        int second = site.pick(others, "a second slot");
        site.put(slot(second), 1, ACTIVE).seenAt(slot(Math.max(active, second)), 1);
    }

    private static void unused(Site site) throws IOException {
        int used = slots(site).size();
        if (used == 4) {
            throw new FaultKind.NoPlaceException("all slots are in use");
        }
        long at = slot(used + site.below(4 - used));
        site.put(at + 8, 4, 0x800L + site.below(0x10000)).put(at + 12, 4, 0x1000L + site.below(0x10000));
    }

    /** The last slot says that it reaches beyond the disk. */
    private static void range(Site site) throws IOException {
        int last = slots(site).size() - 1;
        if (slots(site).get(last).slot() == Slot.CONTAINER) {
            throw new FaultKind.NoPlaceException("the last slot is the container");
        }
        long room = site.made().description().sectors() - slots(site).get(last).firstLba();
        site.put(slot(last) + 12, 4, room + 1000 + site.below(100_000)).seenAt(slot(last) + 8, 8);
        chsQuietly(site, last);
    }

    private static void overlap(Site site) throws IOException {
        int index = site.below(Math.max(1, slots(site).size() - 1));
        if (index + 1 >= slots(site).size() || slots(site).get(index).slot() == Slot.CONTAINER) {
            throw new FaultKind.NoPlaceException("no neighbour");
        }
        PartitionDescription own = slots(site).get(index);
        PartitionDescription next = slots(site).get(index + 1);
        long reach = next.firstLba() - own.firstLba() + 64 + site.below(1000);
        site.put(slot(index) + 12, 4, reach).seenAt(slot(index + 1) + 8, 8);
        chsQuietly(site, index);
    }

    /** The end as cylinder, head and sector follows the changed count, in 255 heads and 63 sectors. */
    private static void chsQuietly(Site site, int index) throws IOException {
        long last = site.number(slot(index) + 8, 4) + site.number(slot(index) + 12, 4) - 1;
        long cylinder = last / (255 * 63);
        int head = (int) (last / 63 % 255);
        int sector = (int) (last % 63) + 1;
        if (cylinder > 1023) {
            site.quietly(slot(index) + 5, (byte) 0xFE, (byte) 0xFF, (byte) 0xFF);
        } else {
            site.quietly(slot(index) + 5, (byte) head, (byte) (sector | cylinder >> 2 & 0xC0), (byte) cylinder);
        }
    }

    private static void chs(Site site) throws IOException {
        int index = site.below(slots(site).size());
        site.flip(slot(index) + 5, 1 + site.below(0x1F));
        site.seenAt(slot(index) + 1, 7);
    }
}
