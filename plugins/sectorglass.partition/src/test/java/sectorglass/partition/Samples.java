package sectorglass.partition;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import java.util.zip.CRC32;

/** Disks built byte by byte. */
final class Samples {
    static final String EFI = "C12A7328-F81F-11D2-BA4B-00A0C93EC93B";
    static final String LINUX = "0FC63DAF-8483-4772-8E79-3D69D8477DE4";
    static final String DISK = "01234567-89AB-CDEF-0123-456789ABCDEF";
    static final String FIRST = "11111111-2222-3333-4455-66778899AABB";
    static final String SECOND = "DEADBEEF-CAFE-4BAD-8F00-0123456789AB";
    static final long MIB = 1 << 20;

    private Samples() {
    }

    static byte[] hex(String text) {
        return HexFormat.of().parseHex(text.replace(" ", ""));
    }

    static byte[] guid(String text) {
        byte[] b = hex(text.replace("-", ""));
        return new byte[] {b[3], b[2], b[1], b[0], b[5], b[4], b[7], b[6], b[8], b[9], b[10], b[11], b[12], b[13], b[14], b[15]};
    }

    /** 64 MiB with two partitions and both copies. */
    static Memory gpt(int ssz) {
        long n = 64 * MIB / ssz;
        long array = (16384 + ssz - 1) / ssz;
        Memory disk = Memory.zeros(64 * MIB, ssz);
        disk = disk.put(446, hex("00000200EEFFFFFF01000000")).u32(458, n - 1).put(510, 0x55, 0xAA);
        long scale = ssz / 512;
        Memory entries = disk;
        for (long at : new long[] {2L * ssz, (n - 1 - array) * ssz}) {
            entries = entry(entries, at, EFI, FIRST, 2048 / scale, 34816 / scale - 1, 0, "EFI-A");
            entries = entry(entries, at + 128, LINUX, SECOND, 34816 / scale, n - 2 - array, 4, "Datenträger");
        }
        disk = header(entries, 1, n - 1, 2, ssz, n, array);
        return crcs(header(disk, n - 1, 1, n - 1 - array, ssz, n, array));
    }

    static Memory entry(Memory disk, long at, String type, String unique, long first, long last, long attributes, String name) {
        return disk.put(at, guid(type)).put(at + 16, guid(unique)).u64(at + 32, first).u64(at + 40, last).u64(at + 48, attributes)
                .put(at + 56, name.getBytes(StandardCharsets.UTF_16LE));
    }

    private static Memory header(Memory disk, long mine, long other, long entries, int ssz, long n, long array) {
        long at = mine * ssz;
        return disk.put(at, "EFI PART".getBytes(StandardCharsets.US_ASCII)).u32(at + 8, 0x10000).u32(at + 12, 92).u64(at + 24, mine)
                .u64(at + 32, other).u64(at + 40, 2 + array).u64(at + 48, n - 2 - array).put(at + 56, guid(DISK))
                .u64(at + 72, entries).u32(at + 80, 128).u32(at + 84, 128);
    }

    /** The checksums of both copies made right. */
    static Memory crcs(Memory disk) {
        return crc(crc(disk, 1), disk.sectors() - 1);
    }

    /** The checksums of one copy made right, from what its fields say. */
    static Memory crc(Memory disk, long lba) {
        int ssz = disk.sectorSize();
        long at = lba * ssz;
        long array = le(disk, at + 72, 8) * ssz;
        Memory with = disk.u32(at + 88, crc32(disk.get(array, (int) (le(disk, at + 80, 4) * le(disk, at + 84, 4)))));
        with = with.u32(at + 16, 0);
        return with.u32(at + 16, crc32(with.get(at, (int) le(disk, at + 12, 4))));
    }

    static long le(Memory disk, long at, int bytes) {
        long value = 0;
        for (int i = bytes - 1; i >= 0; i--) {
            value = value << 8 | disk.get(at + i);
        }
        return value;
    }

    static long crc32(byte[] bytes) {
        CRC32 crc = new CRC32();
        crc.update(bytes);
        return crc.getValue();
    }

    /** 256 MiB with two primary and three logical partitions, as sfdisk 2.38.1 wrote it. */
    static Memory mbr() {
        return Memory.zeros(256 * MIB, 512).put(440, hex("4D3C2B1A"))
                .put(446, hex("80 20 21 00 83 34 30 04 00 08 00 00 00 00 01 00"))
                .put(462, hex("00 34 31 04 0C 49 01 08 00 08 01 00 00 00 01 00"))
                .put(478, hex("00 49 02 08 05 81 21 20 00 08 02 00 00 F0 05 00"))
                .put(510, 0x55, 0xAA)
                .put(68157886, hex("00 69 22 08 83 F5 2B 0A 00 08 00 00 00 A0 00 00"))
                .put(68157902, hex("00 F5 2C 0A 05 A3 16 0D 00 A8 00 00 00 A8 00 00"))
                .put(133120L * 512 + 510, 0x55, 0xAA)
                .put(90177982, hex("00 17 0D 0B 82 A3 16 0D 00 08 00 00 00 A0 00 00"))
                .put(90177998, hex("00 A3 17 0D 05 97 06 11 00 50 01 00 00 F8 00 00"))
                .put(176128L * 512 + 510, 0x55, 0xAA)
                .put(112198078, hex("00 C3 37 0D 07 97 06 11 00 08 00 00 00 F0 00 00"))
                .put(219136L * 512 + 510, 0x55, 0xAA);
    }
}
