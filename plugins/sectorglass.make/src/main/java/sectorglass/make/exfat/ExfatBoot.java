package sectorglass.make.exfat;

import java.io.IOException;

import sectorglass.make.write.Block;
import sectorglass.make.write.VolumeTarget;

/** Main and backup boot region (Microsoft exFAT specification, section 3). */
final class ExfatBoot {
    private static final int SECTORS = 11;

    private ExfatBoot() {
    }

    static void write(VolumeTarget target, ExfatLayout layout, long rootCluster, long used) throws IOException {
        int sectorSize = target.sectorSize();
        Block region = new Block((SECTORS + 1) * sectorSize);
        region.u8(0, 0xEB).u8(1, 0x76).u8(2, 0x90).ascii(3, "EXFAT   ");
        region.u64(64, target.firstLba()).u64(72, layout.sectors()).u32(80, layout.tableOffset()).u32(84, layout.tableSectors());
        region.u32(88, layout.heapOffset()).u32(92, layout.clusters()).u32(96, rootCluster).u32(100, target.volume().serial());
        region.u16(104, 0x0100).u8(108, shift(sectorSize)).u8(109, shift(target.sectorsPerCluster())).u8(110, 1).u8(111, 0x80);
        region.u8(112, (int) (100 * used / layout.clusters()));
        for (int i = 120; i < 510; i++) {
            region.u8(i, 0xF4);
        }
        region.u8(510, 0x55).u8(511, 0xAA);
        for (int sector = 1; sector <= 8; sector++) {
            region.u32((sector + 1) * sectorSize - 4, 0xAA550000L);
        }
        int sum = ExfatSums.boot(region.bytes(), SECTORS * sectorSize);
        for (int at = SECTORS * sectorSize; at < (SECTORS + 1) * sectorSize; at += 4) {
            region.u32(at, sum);
        }
        target.medium().write(0, region.bytes());
        target.medium().write((long) (SECTORS + 1) * sectorSize, region.bytes());
        target.note("boot", 0);
        target.note("backup boot", (long) (SECTORS + 1) * sectorSize);
        target.note("table 1", layout.tableByte());
    }

    private static int shift(int powerOfTwo) {
        return Integer.numberOfTrailingZeros(powerOfTwo);
    }
}
