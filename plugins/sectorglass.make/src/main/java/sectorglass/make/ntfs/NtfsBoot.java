package sectorglass.make.ntfs;

import java.io.IOException;

import sectorglass.make.write.Block;
import sectorglass.make.write.VolumeTarget;

/** Boot sector and its backup in the last sector of the partition. */
final class NtfsBoot {

    private NtfsBoot() {
    }

    static void write(VolumeTarget target, NtfsGeometry geometry, long records, long mirror) throws IOException {
        Block boot = new Block(geometry.sectorSize());
        boot.u8(0, 0xEB).u8(1, 0x52).u8(2, 0x90).ascii(3, "NTFS    ").u16(0x0B, geometry.sectorSize());
        boot.u8(0x0D, geometry.clusterByte()).u8(0x15, 0xF8).u16(0x18, 63).u16(0x1A, 255);
        boot.u32(0x1C, Math.min(0xFFFFFFFFL, target.firstLba())).u8(0x24, 0x80).u8(0x26, 0x80);
        boot.u64(0x28, geometry.totalSectors()).u64(0x30, records).u64(0x38, mirror);
        boot.u8(0x40, geometry.sizeByte(geometry.recordBytes())).u8(0x44, geometry.sizeByte(NtfsGeometry.INDEX_BLOCK));
        boot.u64(0x48, target.volume().serial()).u8(0x1FE, 0x55).u8(0x1FF, 0xAA);
        target.medium().write(0, boot.bytes());
        target.medium().write(geometry.backupByte(), boot.bytes());
        target.note("boot", 0);
        target.note("backup boot", geometry.backupByte());
    }
}
