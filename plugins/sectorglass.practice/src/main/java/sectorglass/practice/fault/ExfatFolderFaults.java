package sectorglass.practice.fault;

import java.io.IOException;
import java.util.List;

import sectorglass.make.Checksums;

/** Faults of entry sets of exFAT (Microsoft exFAT specification, sections 6 and 7). */
final class ExfatFolderFaults {
    private static final int ENTRY = 32;

    private ExfatFolderFaults() {
    }

    static List<FaultKind> kinds() {
        return List.of(
                kind("exfat.set-checksum", 3, site -> site.flip(file(site) + 2 + site.below(2), site.someByte())),
                kind("exfat.name-hash", 4, site -> {
                    long set = file(site);
                    site.flip(set + ENTRY + 4 + site.below(2), site.someByte());
                    sum(site, set);
                }),
                kind("exfat.valid-length", 4, site -> {
                    long set = file(site);
                    site.put(set + ENTRY + 8, 8, site.number(set + ENTRY + 24, 8) + 1 + site.below(500));
                    sum(site, set);
                }),
                kind("exfat.timestamps-legal", 4, site -> {
                    long set = file(site);
                    site.put(set + 14, 2, 0x59E0 + 1 + site.below(20));
                    sum(site, set);
                }),
                kind("exfat.set-shape", 4, site -> site.put(file(site) + 1, 1, 1)),
                kind("exfat.start-in-range", 5, ExfatFolderFaults::start),
                kind("exfat.nothing-after-end", 4, ExfatFolderFaults::after),
                new FaultKind("exfat.label-length", "exfat.label-length", 3, Area.EXFAT, "root",
                        site -> site.put(site.place("root") + 1, 1, 12 + site.below(60))));
    }

    private static FaultKind kind(String check, int level, FaultKind.Planting planting) {
        return new FaultKind(check, check, level, Area.EXFAT, "clusters", planting);
    }

    private static long file(Site site) {
        return site.pick(site.entries(e -> !e.folder() && e.place().runs().size() == 1), "a file").place().entryByte();
    }

    /** Makes the checksum of a set hold again. */
    private static void sum(Site site, long set) throws IOException {
        int length = ENTRY * (1 + (int) site.number(set + 1, 1));
        site.quietly(set + 2, 2, Checksums.exfatSet(site.read(set, length), 0, length));
    }

    /** A file begins beyond the last cluster; its own are marked free. */
    private static void start(Site site) throws IOException {
        Site.Entry file = site.pick(site.entries(e -> !e.folder() && e.place().runs().size() == 1), "a file");
        long boot = site.place("boot");
        long set = file.place().entryByte();
        site.put(set + ENTRY + 20, 4, site.number(boot + 92, 4) + 2 + 100 + site.below(9000));
        sum(site, set);
        long heap = boot + site.number(boot + 88, 4) * site.sectorSize();
        long first = (file.place().runs().get(0).firstByte() - heap) / site.clusterBytes();
        for (long bit = first; bit < first + site.clusters(file); bit++) {
            long at = site.place("bitmap") + bit / 8;
            site.quietly(at, 1, site.number(at, 1) & ~(1L << bit % 8));
        }
    }

    /** An entry behind the end of the root directory. */
    private static void after(Site site) throws IOException {
        long root = site.place("root");
        for (int i = 3; i < site.clusterBytes() / ENTRY - 2; i++) {
            if (site.number(root + (long) i * ENTRY, 1) == 0) {
                site.put(root + (i + 1L) * ENTRY, 2, 0xC1L | (long) site.someByte() << 8);
                return;
            }
        }
        throw new FaultKind.NoPlaceException("the root directory is full");
    }
}
