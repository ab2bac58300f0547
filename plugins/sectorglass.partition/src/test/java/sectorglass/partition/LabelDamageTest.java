package sectorglass.partition;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.List;

import org.junit.jupiter.api.Test;

/** Damage to Apple, BSD, Sun, SGI and LDM structures. Sources as in the specs: util-linux pt-*.h, Linux mac.h and ldm.h. */
class LabelDamageTest {

    private static Memory be32(Memory image, long at, long value) {
        return image.put(at, (int) (value >> 24), (int) (value >> 16), (int) (value >> 8), (int) value);
    }

    private static Memory sun() {
        Memory label = be32(Memory.zeros(8 << 20, 512), 128, 1).put(140, 0, 8).put(142, 0, 0x83, 0, 0).put(150, 0, 5, 0, 0);
        label = be32(be32(label, 188, 0x600DDEEEL).put(436, 0, 1, 0, 2), 444, 0);
        label = be32(be32(be32(label, 448, 8000), 460, 0), 464, 16384).put(508, 0xDA, 0xBE);
        int xor = 0;
        for (int at = 0; at < 510; at += 2) {
            xor ^= label.get(at) << 8 | label.get(at + 1);
        }
        return label.put(510, xor >> 8, xor);
    }

    @Test
    void sunChecksumSeesEveryBit() {
        assertEquals(List.of(), Look.at(sun()).failed());
        assertEquals(List.of("0+8000 83"), Look.at(sun()).partitions());
        for (int at = 0; at < 508; at++) {
            assertEquals(1, Look.at(sun().flip(at, 1)).serious().stream().filter("sun.label.xor@510"::equals).count(), "byte " + at);
        }
    }

    private static Memory sgi() {
        Memory label = Memory.zeros(8 << 20, 512).put(0, 0x0B, 0xE5, 0xA9, 0x41);
        label = be32(be32(be32(label, 312, 4000), 316, 4096), 320, 0x0A);
        label = be32(be32(be32(label, 312 + 96, 4096), 316 + 96, 0), 320 + 96, 0);
        label = be32(be32(be32(label, 312 + 120, 16384), 316 + 120, 0), 320 + 120, 6);
        long sum = 0;
        for (int at = 0; at < 504; at += 4) {
            sum += (long) label.get(at) << 24 | label.get(at + 1) << 16 | label.get(at + 2) << 8 | label.get(at + 3);
        }
        return be32(label, 504, -sum);
    }

    @Test
    void sgiSumSeesEveryBit() {
        assertEquals(List.of(), Look.at(sgi()).failed());
        assertEquals(List.of("4096+4000 0a", "0+4096 00"), Look.at(sgi()).partitions());
        for (int at = 4; at < 512; at++) {
            assertEquals(1, Look.at(sgi().flip(at, 1)).serious().stream().filter("sgi.label.sum@504"::equals).count(), "byte " + at);
        }
    }

    private static Memory bsd() {
        Memory label = Memory.zeros(8 << 20, 512).u32(512, 0x82564557L).u32(512 + 132, 0x82564557L).u32(512 + 40, 512).put(512 + 138, 8, 0)
                .u32(512 + 148, 4000).u32(512 + 152, 64).put(512 + 160, 7).u32(512 + 164, 8000).u32(512 + 168, 4064).put(512 + 176, 1);
        int xor = 0;
        for (int at = 0; at < 148 + 8 * 16; at += 2) {
            xor ^= label.get(512 + at) | label.get(513 + at) << 8;
        }
        return label.put(512 + 136, xor, xor >> 8);
    }

    @Test
    void bsdChecksumSeesEveryBit() {
        assertEquals(List.of(), Look.at(bsd()).failed());
        assertEquals(List.of("64+4000 07", "4064+8000 01"), Look.at(bsd()).partitions());
        for (int at = 4; at < 276; at++) {
            if (at >= 132 && at < 136 || at == 138 || at == 139) {
                continue;
            }
            assertEquals(1, Look.at(bsd().flip(512 + at, 1)).serious().stream().filter("bsd.label.xor@648"::equals).count(), "byte " + at);
        }
        assertEquals(List.of("bsd.label.count@650"), Look.at(bsd().put(650, 200)).serious());
        assertTrue(Look.at(bsd().flip(512 + 132, 1)).serious().contains("bsd.label.xor@648"));
    }

    private static Memory apple() {
        Memory map = be32(Memory.zeros(8 << 20, 512).put(0, 0x45, 0x52, 2, 0), 4, 16384);
        long[][] parts = {{1, 63}, {64, 8000}, {8064, 8320}};
        String[] types = {"Apple_partition_map", "Apple_HFS", "Apple_Free"};
        for (int i = 0; i < 3; i++) {
            long at = 512L * (i + 1);
            map = be32(be32(be32(map.put(at, 0x50, 0x4D), at + 4, 3), at + 8, parts[i][0]), at + 12, parts[i][1])
                    .put(at + 48, types[i].getBytes(StandardCharsets.US_ASCII));
        }
        return map;
    }

    @Test
    void appleMap() {
        Look look = Look.at(apple());
        assertEquals(List.of(), look.failed());
        assertEquals(List.of("1+63 Apple_partition_map", "64+8000 Apple_HFS"), look.partitions());
        assertEquals(List.of("apm.tiling@1032"), Look.at(be32(apple(), 1024 + 8, 65)).serious().stream().limit(1).toList());
        assertEquals(List.of("apm.entry@1536"), Look.at(apple().put(1536, 0)).serious());
        assertEquals(List.of("apm.driver@0"), Look.at(apple().put(0, 0)).failed());
        assertTrue(Look.at(be32(apple(), 1536 + 12, 9000)).serious().contains("apm.partition-range@1544"));
        Look unread = Look.at(apple().unread(2, 1));
        assertEquals(List.of("1+63 Apple_partition_map"), unread.partitions());
        assertEquals("[2..2]", unread.one("apm.entry").missing().toString());
    }

    private static Memory ldm() {
        Memory disk = Memory.zeros(16 << 20, 512).put(446 + 4, 0x42).u32(454, 63).u32(458, 30000).put(510, 0x55, 0xAA).u32(440, 7);
        for (long at : new long[] {3072, (30720L + 1856) * 512, 32767L * 512}) {
            disk = disk.put(at, "PRIVHEAD".getBytes(StandardCharsets.US_ASCII)).put(at + 12, 0, 2, 0, 11)
                    .put(at + 48, "01234567-89ab-cdef-0123-456789abcdef".getBytes(StandardCharsets.US_ASCII));
            disk = be32(be32(be32(be32(disk, at + 287, 63), at + 295, 30000), at + 303, 30720), at + 311, 2048);
            long sum = 0;
            for (int i = 0; i < 512; i++) {
                sum += disk.get(at + i);
            }
            disk = be32(disk, at + 8, sum);
        }
        return disk;
    }

    @Test
    void dynamicDisk() {
        Look look = Look.at(ldm());
        assertEquals(List.of(), look.serious());
        assertEquals("01234567-89ab-cdef-0123-456789abcdef", look.disk().maps().get(1).map().id());
        assertEquals(3, look.disk().maps().get(1).map().structures().size());
        assertEquals(List.of("ldm.privhead@3072"), Look.at(ldm().put(3072, 0)).serious());
        assertTrue(Look.at(ldm().put(3072 + 15, 99)).serious().contains("ldm.privhead@3084"));
        assertTrue(Look.at(ldm().put(32767L * 512 + 60, 1)).serious().contains("ldm.copies-equal@" + 32767L * 512));
        assertTrue(Look.at(ldm().resize(15 << 20)).serious().contains("ldm.database@3371"));
    }
}
