package sectorglass.practice.fault;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

import sectorglass.make.PartitionDescription;
import sectorglass.make.Slot;

/** Faults of the chain of extended boot records (Linux kernel block/partitions/msdos.c). Only its end is changed, so that no volume is lost. */
final class EbrFaults {
    private static final int LINK = MbrFaults.FIRST + MbrFaults.ENTRY;

    private EbrFaults() {
    }

    static List<FaultKind> kinds() {
        return List.of(
                new FaultKind("mbr.ebr-chain loop", "mbr.ebr-chain", 3, Area.EBR, "chain", EbrFaults::loop),
                new FaultKind("mbr.ebr-chain outside", "mbr.ebr-chain", 3, Area.EBR, "chain", EbrFaults::outside),
                new FaultKind("mbr.ebr-chain signature", "mbr.ebr-chain", 2, Area.EBR, "chain", EbrFaults::signature),
                new FaultKind("mbr.ebr-reserved", "mbr.ebr-reserved", 3, Area.EBR, "reserved", EbrFaults::reserved));
    }

    private static PartitionDescription container(Site site) {
        return site.made().description().partitions().stream().filter(p -> p.slot() == Slot.CONTAINER).findFirst().orElseThrow();
    }

    /** Byte of each record. */
    private static List<Long> records(Site site) {
        List<Long> records = new ArrayList<>();
        long gap = -1;
        for (PartitionDescription partition : site.made().description().partitions()) {
            if (partition.slot() == Slot.LOGICAL) {
                gap = gap < 0 ? partition.firstLba() - container(site).firstLba() : gap;
                records.add((partition.firstLba() - gap) * site.sectorSize());
            }
        }
        return records;
    }

    private static long last(Site site) {
        List<Long> records = records(site);
        return records.get(records.size() - 1);
    }

    private static void link(Site site, long record, long start, long sectors) throws IOException {
        byte[] entry = new byte[16];
        entry[1] = (byte) 0xFE;
        entry[2] = (byte) 0xFF;
        entry[3] = (byte) 0xFF;
        entry[4] = 5;
        entry[5] = (byte) 0xFE;
        entry[6] = (byte) 0xFF;
        entry[7] = (byte) 0xFF;
        System.arraycopy(Site.bytes(start, 4), 0, entry, 8, 4);
        System.arraycopy(Site.bytes(sectors, 4), 0, entry, 12, 4);
        site.put(record + LINK, entry);
    }

    /** The last record leads to one that was met before. */
    private static void loop(Site site) throws IOException {
        List<Long> records = records(site);
        long target = site.pick(records.subList(0, records.size() - 1), "an earlier record") / site.sectorSize();
        link(site, last(site), target - container(site).firstLba(), 63);
    }

    /** The last record leads out of the container. */
    private static void outside(Site site) throws IOException {
        link(site, last(site), container(site).sectors() + 2048 + site.below(4096), 63);
    }

    private static void signature(Site site) throws IOException {
        site.put(last(site) + 510, 2, site.below(0x5500));
    }

    private static void reserved(Site site) throws IOException {
        site.put(site.pick(records(site), "a record") + 440, 4, 0x10000L + site.below(1 << 30));
    }
}
