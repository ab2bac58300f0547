package sectorglass.partition.mbr;

import sectorglass.image.Window;

/**
 * Tells the boot sector of a volume from an MBR: both may end in 55 AA. Rules as libblkid applies them (util-linux,
 * libblkid/src/superblocks/vfat.c, ntfs.c, exfat.c), with sector sizes 512 to 4096.
 */
public final class BootSector {

    private BootSector() {
    }

    /** The kind of volume whose boot sector this is, in words, or null; all 512 bytes must have been read. */
    public static String kind(Window sector) {
        if (sector.matches(3, "NTFS    ")) {
            return ntfs(sector) ? "NTFS" : null;
        }
        if (sector.matches(3, "EXFAT   ")) {
            return sector.filled(11, 53, 0) ? "exFAT" : null;
        }
        if (sector.matches(3, "-FVE-FS-")) {
            return "BitLocker";
        }
        return fat(sector) ? "FAT" : null;
    }

    private static boolean ntfs(Window s) {
        return sectorSize(s.u16le(11)) && s.u16le(14) == 0 && s.u8(16) == 0 && s.u16le(17) == 0 && s.u16le(19) == 0
                && s.u16le(22) == 0 && s.u32le(32) == 0;
    }

    private static boolean fat(Window s) {
        boolean jump = s.u8(0) == 0xEB && s.u8(2) == 0x90 || s.u8(0) == 0xE9;
        int perCluster = s.u8(13);
        int media = s.u8(21);
        return jump && sectorSize(s.u16le(11)) && perCluster != 0 && (perCluster & perCluster - 1) == 0 && s.u16le(14) != 0
                && s.u8(16) != 0 && (media == 0xF0 || media >= 0xF8) && clusters(s) > 0;
    }

    private static long clusters(Window s) {
        long total = s.u16le(19) != 0 ? s.u16le(19) : s.u32le(32);
        long perFat = s.u16le(22) != 0 ? s.u16le(22) : s.u32le(36);
        long root = (s.u16le(17) * 32L + s.u16le(11) - 1) / s.u16le(11);
        return perFat == 0 ? 0 : (total - s.u16le(14) - s.u8(16) * perFat - root) / s.u8(13);
    }

    private static boolean sectorSize(int bytes) {
        return bytes >= 512 && bytes <= 4096 && (bytes & bytes - 1) == 0;
    }
}
