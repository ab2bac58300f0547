package sectorglass.partition;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;

import org.junit.jupiter.api.Test;

/**
 * Every bit of an MBR changed. What must be found is computed here from the bytes alone, in another way than the checkers do it:
 * rules of UEFI 2.10, section 5.2.1, and Linux block/partitions/msdos.c.
 */
class MbrSweepTest {
    private static final long SECTORS = 524288;

    private final Memory good = Samples.mbr();

    @Test
    void bootCodeChangesNothing() {
        for (int at = 0; at < 440; at++) {
            for (int bit = 0; bit < 8; bit++) {
                assertEquals(List.of(), Look.at(good.flip(at, 1 << bit)).failed(), "byte " + at + " bit " + bit);
            }
        }
    }

    @Test
    void tableGivesExactlyTheComputedFindings() {
        for (int at = 440; at < 512; at++) {
            for (int bit = 0; bit < 8; bit++) {
                Memory image = good.flip(at, 1 << bit);
                assertEquals(expected(image), new TreeSet<>(Look.at(image).failed()), "byte " + at + " bit " + bit);
            }
        }
    }

    private static long le(Memory image, int at) {
        return Samples.le(image, at, 4);
    }

    private static boolean container(int type) {
        return type == 5 || type == 15 || type == 0x85;
    }

    /** The table of expectations. */
    private static Set<String> expected(Memory image) {
        Set<String> all = new TreeSet<>();
        if (image.get(510) != 0x55 || image.get(511) != 0xAA) {
            all.add("mbr.signature@510");
        }
        if (image.get(444) + image.get(445) != 0) {
            all.add("mbr.reserved@444");
        }
        int active = 0;
        int containers = 0;
        for (int slot = 0; slot < 4; slot++) {
            int at = 446 + 16 * slot;
            int flag = image.get(at);
            if (flag % 128 != 0) {
                all.add("mbr.active-byte@" + at);
            }
            active += flag == 128 ? 1 : 0;
            if (flag == 128 && active == 2) {
                all.add("mbr.active-count@" + at);
            }
            int type = image.get(at + 4);
            long first = le(image, at + 8);
            long size = le(image, at + 12);
            if (type == 0 || size == 0) {
                if (flag + type + first + size + image.get(at + 1) + image.get(at + 2) + image.get(at + 3) + image.get(at + 5)
                        + image.get(at + 6) + image.get(at + 7) != 0) {
                    all.add("mbr.unused-slot@" + at);
                }
                continue;
            }
            containers += container(type) ? 1 : 0;
            if (container(type) && containers == 2) {
                all.add("mbr.container-count@" + (at + 4));
            }
            boolean outside = first == 0 || first + size > SECTORS;
            if (outside) {
                all.add("mbr.partition-range@" + (at + 8));
            } else {
                if (!chs(image, at)) {
                    all.add("mbr.chs@" + (at + 1));
                }
                if (!container(type) && first % 8 != 0) {
                    all.add("mbr.alignment@" + (at + 8));
                }
                for (int other = 0; other < slot; other++) {
                    int there = 446 + 16 * other;
                    boolean used = image.get(there + 4) != 0 && le(image, there + 12) != 0
                            && le(image, there + 8) + le(image, there + 12) <= SECTORS && le(image, there + 8) != 0;
                    if (used && first < le(image, there + 8) + le(image, there + 12) && le(image, there + 8) < first + size) {
                        all.add("mbr.partition-overlap@" + (at + 8));
                    }
                }
            }
            if (container(type)) {
                chain(image, at, first, size, outside, all);
            }
        }
        return all;
    }

    /** A container that is not the one of the sample begins with zeros: its first EBR lacks 55 AA. */
    private static void chain(Memory image, int at, long first, long size, boolean outside, Set<String> all) {
        if (outside) {
            return;
        }
        if (image.get(first * 512 + 510) != 0x55) {
            all.add("mbr.ebr-chain@" + (first * 512 + 510));
            return;
        }
        long ends = first + size;
        long[] ebrs = {133120, 176128, 219136};
        long[] dataEnds = {176128, 219136, 282624};
        for (int i = 0; i < 3; i++) {
            if (i > 0 && ebrs[i] >= ends) {
                all.add("mbr.ebr-chain@" + (ebrs[i - 1] * 512 + 462 + 8));
                return;
            }
            if (dataEnds[i] > ends) {
                all.add("mbr.ebr-chain@" + (ebrs[i] * 512 + 446 + 8));
            } else if (i < 2 && ebrs[i + 1] < ends && dataEnds[i + 1] > ends) {
                all.add("mbr.ebr-chain@" + (ebrs[i] * 512 + 462 + 12));
            }
        }
    }

    /** Whether the CHS of a slot fit one of the geometries that the sample's own ends and common practice allow. */
    private static boolean chs(Memory image, int at) {
        int[][] common = {{255, 63}, {16, 63}, {240, 63}, {128, 63}, {64, 32}};
        for (int[] g : common) {
            if (chs(image, at, g[0], g[1])) {
                return true;
            }
        }
        for (int slot = 446; slot < 510; slot += 16) {
            int sector = image.get(slot + 6) % 64;
            boolean marker = image.get(slot + 6) == 255 && image.get(slot + 7) == 255 && image.get(slot + 5) >= 254;
            if (image.get(slot + 4) != 0 && le(image, slot + 12) != 0 && sector != 0 && !marker
                    && chs(image, at, image.get(slot + 5) + 1, sector)) {
                return true;
            }
        }
        return false;
    }

    private static boolean chs(Memory image, int at, int heads, int perTrack) {
        return address(image, at + 1, le(image, at + 8), heads, perTrack)
                && address(image, at + 5, le(image, at + 8) + le(image, at + 12) - 1, heads, perTrack);
    }

    private static boolean address(Memory image, int at, long lba, int heads, int perTrack) {
        int head = image.get(at);
        int sector = image.get(at + 1) % 64;
        int cylinder = image.get(at + 1) / 64 * 256 + image.get(at + 2);
        if (head + sector + cylinder == 0) {
            return true;
        }
        if (lba / perTrack / heads > 1023) {
            return cylinder == 1023 && sector == 63 && head >= 254;
        }
        return sector != 0 && head < heads && sector <= perTrack && ((long) cylinder * heads + head) * perTrack + sector - 1 == lba;
    }
}
