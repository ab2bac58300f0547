package sectorglass.make.map;

import java.io.IOException;
import java.util.List;

import sectorglass.make.DiskDescription;
import sectorglass.make.MapKind;
import sectorglass.make.Medium;
import sectorglass.make.PartitionDescription;
import sectorglass.make.Slot;
import sectorglass.make.write.Block;

/**
 * Writes LBA 0 and the chain of extended boot records. Sources: UEFI 2.10, sections 5.2.1 and 5.2.3; for the chain, Linux kernel
 * block/partitions/msdos.c (a data entry is relative to its own record, a link to the start of the container).
 */
public final class MbrWriter {
    private static final int FIRST_ENTRY = 446;
    private static final int ENTRY = 16;
    private static final int PROTECTIVE = 0xEE;

    private final Medium medium;
    private final DiskDescription disk;

    /** For one disk. */
    public MbrWriter(Medium medium, DiskDescription disk) {
        this.medium = medium;
        this.disk = disk;
    }

    /** Writes the MBR that the map of the disk asks for. */
    public void write() throws IOException {
        switch (disk.map()) {
            case MBR -> writeOrdinary();
            case GPT -> writeProtective(disk.sectors() - 1, List.of());
            case GPT_HYBRID -> writeHybrid();
            case NONE -> throw new IllegalArgumentException("a disk without a map has no MBR");
        }
    }

    private void writeOrdinary() throws IOException {
        Block sector = signed();
        sector.u32(440, disk.mbrSignature());
        int slot = 0;
        PartitionDescription container = null;
        for (PartitionDescription partition : disk.partitions()) {
            if (partition.slot() == Slot.LOGICAL) {
                continue;
            }
            if (slot == 4) {
                throw new IllegalArgumentException("an MBR has four slots");
            }
            if (partition.slot() == Slot.CONTAINER) {
                if (container != null) {
                    throw new IllegalArgumentException("an MBR has one container");
                }
                container = partition;
            }
            entry(sector, slot++, partition);
        }
        medium.write(0, sector.bytes());
        List<PartitionDescription> logical = disk.partitions().stream().filter(p -> p.slot() == Slot.LOGICAL).toList();
        if (container == null && !logical.isEmpty()) {
            throw new IllegalArgumentException("logical partitions without a container");
        }
        if (container != null) {
            writeChain(container, logical);
        }
    }

    private void writeChain(PartitionDescription container, List<PartitionDescription> logical) throws IOException {
        long gap = logical.isEmpty() ? 0 : logical.get(0).firstLba() - container.firstLba();
        if (logical.isEmpty()) {
            medium.write(container.firstLba() * disk.sectorSize(), signed().bytes());
        }
        for (int i = 0; i < logical.size(); i++) {
            PartitionDescription data = logical.get(i);
            long record = data.firstLba() - gap;
            if (gap < 1 || record < container.firstLba() || data.endLba() > container.endLba()) {
                throw new IllegalArgumentException("logical partition " + data.firstLba() + " is not inside the container");
            }
            Block sector = signed();
            MbrEntry.write(sector, FIRST_ENTRY, data.active(), data.mbrType(), gap, data.firstLba(), data.sectors());
            if (i + 1 < logical.size()) {
                PartitionDescription next = logical.get(i + 1);
                long nextRecord = next.firstLba() - gap;
                MbrEntry.write(sector, FIRST_ENTRY + ENTRY, false, 0x05, nextRecord - container.firstLba(), nextRecord,
                        next.endLba() - nextRecord);
            }
            medium.write(record * disk.sectorSize(), sector.bytes());
        }
    }

    private void writeProtective(long size, List<PartitionDescription> mirrored) throws IOException {
        Block sector = signed();
        sector.u8(FIRST_ENTRY + 2, 0x02).u8(FIRST_ENTRY + 4, PROTECTIVE);
        sector.u8(FIRST_ENTRY + 5, 0xFF).u8(FIRST_ENTRY + 6, 0xFF).u8(FIRST_ENTRY + 7, 0xFF);
        sector.u32(FIRST_ENTRY + 8, 1).u32(FIRST_ENTRY + 12, Math.min(0xFFFFFFFFL, size));
        int slot = 1;
        for (PartitionDescription partition : mirrored) {
            entry(sector, slot++, partition);
        }
        medium.write(0, sector.bytes());
    }

    private void writeHybrid() throws IOException {
        List<PartitionDescription> mirrored = disk.partitions().stream().filter(PartitionDescription::mirrored).toList();
        if (mirrored.isEmpty() || mirrored.size() > 3) {
            throw new IllegalArgumentException("a hybrid MBR mirrors one to three partitions, not " + mirrored.size());
        }
        long first = mirrored.stream().mapToLong(PartitionDescription::firstLba).min().orElseThrow();
        writeProtective(first - 1, mirrored);
    }

    private void entry(Block sector, int slot, PartitionDescription partition) {
        MbrEntry.write(sector, FIRST_ENTRY + ENTRY * slot, partition.active(), partition.mbrType(), partition.firstLba(),
                partition.firstLba(), partition.sectors());
    }

    private Block signed() {
        return new Block(disk.sectorSize()).u8(510, 0x55).u8(511, 0xAA);
    }

    /** Whether a disk has a GPT behind its MBR. */
    public static boolean hasGpt(MapKind map) {
        return map == MapKind.GPT || map == MapKind.GPT_HYBRID;
    }
}
