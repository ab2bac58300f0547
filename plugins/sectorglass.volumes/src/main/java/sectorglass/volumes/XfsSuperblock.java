package sectorglass.volumes;

import java.util.zip.CRC32C;

import sectorglass.disk.VolumeFacts;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** Fields of an XFS superblock, big endian. Source: libblkid superblock prober for XFS (util-linux). */
final class XfsSuperblock {
    /** Byte of the checksum in superblock, AGF, AGI, AGFL. */
    static final int SUM = 224;

    private XfsSuperblock() {
    }

    /** Low four bits of the version word: 4, or 5 with checksums. */
    static int version(Window w) {
        return w.u16be(100) & 15;
    }

    /** Whether block, sector and inode sizes, their logarithms and the counts agree. */
    static boolean plausible(Window w) {
        return problem(w) == null;
    }

    /** What does not agree, or null. */
    static String problem(Window w) {
        long block = w.u32be(4);
        int sector = w.u16be(102);
        int inode = w.u16be(104);
        if (!VolumeFacts.power(block, 512, 65536) || w.u8(120) != log(block)) {
            return "block size " + block + ", logarithm " + w.u8(120);
        }
        if (!VolumeFacts.power(sector, 512, 32768) || w.u8(121) != log(sector)) {
            return "sector size " + sector + ", logarithm " + w.u8(121);
        }
        if (!VolumeFacts.power(inode, 256, 2048) || w.u8(122) != log(inode) || w.u16be(106) != block / inode) {
            return "inode size " + inode + ", logarithm " + w.u8(122) + ", inodes per block " + w.u16be(106);
        }
        if (w.u8(123) != w.u8(120) - w.u8(122)) {
            return "logarithm of inodes per block " + w.u8(123);
        }
        long groups = w.u32be(88);
        long perGroup = w.u32be(84);
        long blocks = w.u64be(8);
        if (groups == 0 || perGroup == 0 || blocks <= 0 || blocks > groups * perGroup || blocks <= (groups - 1) * perGroup) {
            return groups + " groups of " + perGroup + " blocks, " + Long.toUnsignedString(blocks) + " blocks in all";
        }
        if (w.u8(124) != 64 - Long.numberOfLeadingZeros(perGroup - 1)) {
            return "logarithm of blocks per group " + w.u8(124);
        }
        if (w.u8(127) > 100) {
            return "inode share " + w.u8(127) + " percent";
        }
        int version = version(w);
        return version < 1 || version > 5 ? "version " + version : null;
    }

    private static int log(long size) {
        return Long.numberOfTrailingZeros(size);
    }

    /** Whether the superblock at a byte of the site has the checksum it stores; throws where bytes of it were not read. */
    static boolean sumHolds(VolumeSite site, long at) {
        int size = site.window(at, 512).u16be(102);
        Window w = site.window(at, VolumeFacts.power(size, 512, 32768) ? size : 512);
        return sum(w, SUM) == w.u32le(SUM);
    }

    /** CRC-32C over the window with the four bytes of the checksum taken as zero. */
    static long sum(Window w, int sumAt) {
        byte[] bytes = w.bytes(0, w.length());
        java.util.Arrays.fill(bytes, sumAt, sumAt + 4, (byte) 0);
        CRC32C crc = new CRC32C();
        crc.update(bytes, 0, bytes.length);
        return crc.getValue();
    }
}
