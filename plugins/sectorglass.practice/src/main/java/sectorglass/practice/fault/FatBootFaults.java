package sectorglass.practice.fault;

import java.io.IOException;
import java.util.List;

/** Faults of boot sector, FSInfo and the first two entries of the tables (Microsoft FAT specification, "Boot Sector and BPB", "FSInfo"). */
final class FatBootFaults {

    private FatBootFaults() {
    }

    static List<FaultKind> kinds() {
        return List.of(
                kind("fat.boot-signature", 1, Area.FAT, "boot", site -> boot(site, 510, 2, 0)),
                kind("fat.jump-form", 2, Area.FAT, "boot", site -> boot(site, 0, 1, 0x33)),
                kind("fat.media-legal", 2, Area.FAT, "boot", site -> boot(site, 21, 1, 0x10 + site.below(0x70))),
                kind("fat.type-text-agrees", 2, Area.FAT16, "boot", site -> boot(site, 54 + 3, 2, '3' | '2' << 8)),
                kind("fat.label-agrees", 2, Area.FAT, "boot", site -> boot(site, text(site) - 11, 1, 'Q')),
                kind("fat.closed-cleanly", 3, Area.FAT, "head", site -> flag(site, 15, 27)),
                kind("fat.no-media-errors-recorded", 3, Area.FAT, "head", site -> flag(site, 14, 26)),
                kind("fat.media-matches-first-entry", 3, Area.FAT, "boot", site -> {
                    tables(site, 0, 1, 0xF0);
                    site.seenAt(site.place("boot") + 21, 1);
                }),
                kind("fat32.version-zero", 3, Area.FAT32, "boot", site -> boot(site, 42, 2, 1 + site.below(0x300))),
                kind("fat32.reserved-zero", 3, Area.FAT32, "boot", site -> boot(site, 52 + site.below(12), 1, site.someByte())),
                kind("fat32.backup-equals-boot", 2, Area.FAT32, "boot", site -> site.flip(site.place("backup boot") + 24 + site.below(4), site.someByte())),
                kind("fat32.info-signatures", 2, Area.FAT32, "info", site -> site.flip(site.place("info") + 484 + site.below(4), 0x20)),
                kind("fat32.info-free-count", 3, Area.FAT32, "info", site -> site.put(site.place("info") + 488, 4, 100 + site.below(9000))),
                kind("fat32.info-hint-in-range", 3, Area.FAT32, "info", site -> site.put(site.place("info") + 492, 4, 0x00F00000L + site.below(0x10000))),
                kind("fat.copies-equal", 3, Area.FAT, "tables", FatBootFaults::copies));
    }

    private static FaultKind kind(String check, int level, Area area, String zone, FaultKind.Planting planting) {
        return new FaultKind(check, check, level, area, zone, planting);
    }

    private static boolean wide(Site site) {
        return Area.FAT32.fits(site.volume().kind());
    }

    private static long text(Site site) {
        return wide(site) ? 82 : 54;
    }

    /** In the boot sector, and in its copy where there is one. */
    private static void boot(Site site, long offset, int width, long value) throws IOException {
        site.put(site.place("boot") + offset, width, value);
        if (wide(site)) {
            site.put(site.place("backup boot") + offset, width, value);
        }
    }

    private static void tables(Site site, int offset, int width, long value) throws IOException {
        site.put(site.place("table 1") + offset, width, value).put(site.place("table 2") + offset, width, value);
    }

    /** Clears a flag of entry 1 in both tables; FAT12 has none. */
    private static void flag(Site site, int bit16, int bit32) throws IOException {
        if (site.volume().kind() == sectorglass.make.VolumeKind.FAT12) {
            throw new FaultKind.NoPlaceException("FAT12 has no flags");
        }
        int width = wide(site) ? 4 : 2;
        long entry = site.number(site.place("table 1") + width, width);
        tables(site, width, width, entry & ~(1L << (wide(site) ? bit32 : bit16)));
    }

    /** An entry of a file is free in the second table. */
    private static void copies(Site site) throws IOException {
        Site.Entry file = site.file(4);
        FatTableBytes table = new FatTableBytes(site);
        long cluster = table.cluster(file.place().runs().get(0).firstByte()) + 1;
        site.put(table.at(1, cluster), table.packed(1, cluster, 0));
    }
}
