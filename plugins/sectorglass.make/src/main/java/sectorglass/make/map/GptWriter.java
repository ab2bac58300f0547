package sectorglass.make.map;

import java.io.IOException;
import java.util.UUID;
import java.util.zip.CRC32;

import sectorglass.make.DiskDescription;
import sectorglass.make.Medium;
import sectorglass.make.PartitionDescription;
import sectorglass.make.SplitMix64;
import sectorglass.make.write.Block;

/** Writes both copies of a GPT with 128 entries of 128 bytes (UEFI 2.10, sections 5.3.1 to 5.3.3). */
public final class GptWriter {
    private static final int ENTRIES = 128;
    private static final int ENTRY = 128;
    private static final int HEADER = 92;

    private final Medium medium;
    private final DiskDescription disk;
    private final int arraySectors;
    private final long firstUsable;
    private final long lastUsable;

    /**
     * For one disk.
     *
     * @throws IllegalArgumentException if the disk is too small, or a partition leaves the usable range
     */
    public GptWriter(Medium medium, DiskDescription disk) {
        this.medium = medium;
        this.disk = disk;
        arraySectors = (ENTRIES * ENTRY + disk.sectorSize() - 1) / disk.sectorSize();
        firstUsable = 2 + arraySectors;
        lastUsable = disk.sectors() - arraySectors - 2;
        if (lastUsable < firstUsable || disk.partitions().size() > ENTRIES) {
            throw new IllegalArgumentException("sectors=" + disk.sectors() + " partitions=" + disk.partitions().size());
        }
        for (PartitionDescription partition : disk.partitions()) {
            if (partition.firstLba() < firstUsable || partition.endLba() - 1 > lastUsable) {
                throw new IllegalArgumentException("partition " + partition.firstLba() + " leaves the usable range "
                        + firstUsable + " to " + lastUsable);
            }
        }
    }

    /** Writes both arrays and both headers. */
    public void write() throws IOException {
        byte[] array = array();
        CRC32 crc = new CRC32();
        crc.update(array);
        long last = disk.sectors() - 1;
        long backupArray = last - arraySectors;
        medium.write(2L * disk.sectorSize(), array);
        medium.write(backupArray * disk.sectorSize(), array);
        medium.write(disk.sectorSize(), header(1, last, 2, crc.getValue()));
        medium.write(last * disk.sectorSize(), header(last, 1, backupArray, crc.getValue()));
    }

    private byte[] array() {
        Block array = new Block(ENTRIES * ENTRY);
        for (int i = 0; i < disk.partitions().size(); i++) {
            PartitionDescription partition = disk.partitions().get(i);
            int at = i * ENTRY;
            UUID own = partition.guid() != null ? partition.guid() : guid(disk.seed(), "partition " + (i + 1));
            array.guid(at, partition.gptType()).guid(at + 16, own);
            array.u64(at + 32, partition.firstLba()).u64(at + 40, partition.endLba() - 1);
            array.u64(at + 48, partition.attributes()).utf16(at + 56, partition.name());
        }
        return array.bytes();
    }

    private byte[] header(long my, long alternate, long arrayLba, long arrayCrc) {
        UUID guid = disk.diskGuid() != null ? disk.diskGuid() : guid(disk.seed(), "disk");
        Block header = new Block(disk.sectorSize());
        header.ascii(0, "EFI PART").u32(8, 0x00010000).u32(12, HEADER);
        header.u64(24, my).u64(32, alternate).u64(40, firstUsable).u64(48, lastUsable).guid(56, guid);
        header.u64(72, arrayLba).u32(80, ENTRIES).u32(84, ENTRY).u32(88, arrayCrc);
        CRC32 crc = new CRC32();
        crc.update(header.bytes(), 0, HEADER);
        return header.u32(16, crc.getValue()).bytes();
    }

    /** A random GUID of version 4 (RFC 9562, section 5.4) from the seed. */
    static UUID guid(long seed, String part) {
        SplitMix64 numbers = SplitMix64.of(seed, "guid " + part);
        long high = numbers.next() & ~0xF000L | 0x4000L;
        long low = numbers.next() & 0x3FFFFFFFFFFFFFFFL | 0x8000000000000000L;
        return new UUID(high, low);
    }
}
