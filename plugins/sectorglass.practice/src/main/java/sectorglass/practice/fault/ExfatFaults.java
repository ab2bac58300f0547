package sectorglass.practice.fault;

import java.io.IOException;
import java.util.List;

import sectorglass.make.Checksums;

/** Faults of boot regions, table, bitmap and up-case table of exFAT (Microsoft exFAT specification, sections 3, 4 and 7). */
final class ExfatFaults {
    private static final int SECTORS = 11;

    private ExfatFaults() {
    }

    static List<FaultKind> kinds() {
        return List.of(
                kind("exfat.main-checksum", 2, "main", site -> site.flip(region(site, false) + SECTORS * (long) site.sectorSize() + site.below(400), site.someByte())),
                kind("exfat.backup-checksum", 2, "backup", site -> site.flip(region(site, true) + SECTORS * (long) site.sectorSize() + site.below(400), site.someByte())),
                kind("exfat.backup-equals-main", 3, "backup", site -> {
                    site.flip(region(site, true) + 100 + site.below(4), site.someByte());
                    sum(site, region(site, true));
                }),
                kind("exfat.extended-signatures", 4, "", ExfatFaults::extended),
                kind("exfat.closed-cleanly", 2, "flags", site -> site.flip(region(site, false) + 106, 2)),
                kind("exfat.no-media-failure", 3, "flags", site -> site.flip(region(site, false) + 106, 4)),
                kind("exfat.percent-in-use", 3, "percent", site -> site.put(region(site, false) + 112, 1, 60 + site.below(40))),
                kind("exfat.first-fat-entries", 3, "first", site -> site.put(site.place("table 1") + 4L * site.below(2), 4, site.below(0x1000))),
                kind("exfat.bitmap-covers-owners", 4, "clusters", ExfatFaults::covers),
                kind("exfat.bitmap-no-orphans", 4, "clusters", ExfatFaults::orphans),
                kind("exfat.upcase-checksum", 3, "up-case", site -> {
                    site.flip(site.place("up-case") + 600 + site.below(1000), site.someByte());
                    site.seenAt(site.place("root"), 128);
                }),
                kind("exfat.chain-sound", 5, "clusters", ExfatFaults::chain));
    }

    private static FaultKind kind(String check, int level, String zone, FaultKind.Planting planting) {
        return new FaultKind(check, check, level, Area.EXFAT, zone, planting);
    }

    private static long region(Site site, boolean backup) {
        return site.place(backup ? "backup boot" : "boot");
    }

    /** Makes the checksum sector of a region hold again. */
    private static void sum(Site site, long region) throws IOException {
        int size = site.sectorSize();
        int sum = Checksums.exfatBoot(site.read(region, SECTORS * size), SECTORS * size);
        byte[] repeated = new byte[size];
        for (int i = 0; i < size; i++) {
            repeated[i] = (byte) (sum >>> 8 * (i % 4));
        }
        site.quietly(region + (long) SECTORS * size, repeated);
    }

    private static void extended(Site site) throws IOException {
        int sector = 1 + site.below(8);
        for (boolean backup : new boolean[] {false, true}) {
            site.put(region(site, backup) + (sector + 1L) * site.sectorSize() - 4, 4, 0);
            sum(site, region(site, backup));
        }
    }

    private static long heap(Site site) throws IOException {
        return site.place("boot") + site.number(site.place("boot") + 88, 4) * site.sectorSize();
    }

    private static long cluster(Site site, long firstByte) throws IOException {
        return 2 + (firstByte - heap(site)) / site.clusterBytes();
    }

    private static void covers(Site site) throws IOException {
        long cluster = cluster(site, site.file(2).place().runs().get(0).firstByte());
        site.flip(site.place("bitmap") + (cluster - 2) / 8, 1 << (cluster - 2) % 8);
    }

    private static void orphans(Site site) throws IOException {
        long bytes = site.number(site.place("boot") + 92, 4) / 8;
        for (long at = site.place("bitmap") + bytes / 2 + site.below(20); at < site.place("bitmap") + bytes - 1; at++) {
            if (site.number(at, 1) == 0) {
                site.put(at, 1, 1L << site.below(8));
                return;
            }
        }
        throw new FaultKind.NoPlaceException("no free cluster");
    }

    /** A chain leads beyond the last cluster. */
    private static void chain(Site site) throws IOException {
        Site.Entry file = site.pick(site.entries(e -> !e.folder() && e.place().runs().size() > 1), "a file in pieces");
        long cluster = cluster(site, file.place().runs().get(0).firstByte() + file.place().runs().get(0).bytes()) - 1;
        site.put(site.place("table 1") + 4 * cluster, 4, 0x00FFF000L + site.below(0xF00));
    }
}
