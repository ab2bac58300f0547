package sectorglass.make.fat;

import java.io.IOException;

import sectorglass.make.Medium;
import sectorglass.make.VolumeKind;
import sectorglass.make.write.Block;
import sectorglass.make.write.VolumeTarget;

/** Boot sector, its backup and the FSInfo sector (Microsoft FAT specification, "Boot Sector and BPB", "FSInfo"). */
final class FatBoot {
    static final int MEDIA = 0xF8;
    static final int INFO_SECTOR = 1;
    static final int BACKUP_SECTOR = 6;
    static final int ROOT_CLUSTER = 2;

    private FatBoot() {
    }

    static void write(VolumeTarget target, FatLayout layout, long free, long next) throws IOException {
        Medium medium = target.medium();
        int sectorSize = target.sectorSize();
        byte[] boot = boot(target, layout);
        medium.write(0, boot);
        target.note("boot", 0);
        if (target.volume().kind() != VolumeKind.FAT32) {
            return;
        }
        byte[] info = info(sectorSize, free, next);
        medium.write((long) INFO_SECTOR * sectorSize, info);
        medium.write((long) BACKUP_SECTOR * sectorSize, boot);
        medium.write((long) (BACKUP_SECTOR + 1) * sectorSize, info);
        target.note("info", (long) INFO_SECTOR * sectorSize);
        target.note("backup boot", (long) BACKUP_SECTOR * sectorSize);
    }

    private static byte[] boot(VolumeTarget target, FatLayout layout) {
        boolean wide = target.volume().kind() == VolumeKind.FAT32;
        Block boot = new Block(target.sectorSize());
        boot.u8(0, 0xEB).u8(1, wide ? 0x58 : 0x3C).u8(2, 0x90).ascii(3, "SECTGLAS");
        boot.u16(11, target.sectorSize()).u8(13, target.sectorsPerCluster()).u16(14, layout.reserved()).u8(16, 2);
        boot.u16(17, wide ? 0 : FatLayout.ROOT_ENTRIES).u8(21, MEDIA).u16(24, 63).u16(26, 255);
        boot.u32(28, Math.min(0xFFFFFFFFL, target.firstLba()));
        if (!wide && target.sectors() < 65536) {
            boot.u16(19, (int) target.sectors());
        } else {
            boot.u32(32, target.sectors());
        }
        int extended = 36;
        if (wide) {
            boot.u32(36, layout.tableSectors()).u32(44, ROOT_CLUSTER).u16(48, INFO_SECTOR).u16(50, BACKUP_SECTOR);
            extended = 64;
        } else {
            boot.u16(22, (int) layout.tableSectors());
        }
        String label = target.volume().label();
        boot.u8(extended, 0x80).u8(extended + 2, 0x29).u32(extended + 3, target.volume().serial());
        boot.put(extended + 7, FatNames.label(label.isEmpty() ? "NO NAME" : label));
        boot.ascii(extended + 18, target.volume().kind().name() + "   ");
        return boot.u8(510, 0x55).u8(511, 0xAA).bytes();
    }

    private static byte[] info(int sectorSize, long free, long next) {
        return new Block(sectorSize).u32(0, 0x41615252).u32(484, 0x61417272).u32(488, free).u32(492, next)
                .u32(508, 0xAA550000L).bytes();
    }
}
