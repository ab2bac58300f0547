package sectorglass.practice.fault;

import java.io.IOException;
import java.util.List;

/** Faults of folders (Microsoft FAT specification, "FAT Directory Structure" and "Long File Name Implementation"). */
final class FatFolderFaults {
    private static final int SLOT = 32;

    private FatFolderFaults() {
    }

    static List<FaultKind> kinds() {
        return List.of(
                kind("fat.directory-size-zero", 3, "slots", site -> site.put(folder(site).place().entryByte() + 28, 4, 32L * (1 + site.below(200)))),
                kind("fat.dot-entries", 3, "slots", site -> {
                    long first = folder(site).place().runs().get(0).firstByte();
                    site.put(first + SLOT * site.below(2) + 26, 2, 40 + site.below(500));
                }),
                kind("fat.attribute-legal", 3, "slots", site -> site.flip(file(site).place().entryByte() + 11, site.below(2) == 0 ? 0x40 : 0x80)),
                kind("fat.date-legal", 3, "slots", site -> site.put(file(site).place().entryByte() + 24, 2, 0x59E0 + 1 + site.below(20))),
                kind("fat.name-legal", 3, "slots", site -> site.put(plain(site).place().entryByte() + 2, 1, "*+,;=[]".charAt(site.below(7)))),
                kind("fat.long-name-order", 4, "slots", site -> {
                    long slot = named(site).place().entryByte() - SLOT;
                    site.put(slot, 1, site.number(slot, 1) + 4).seenAt(slot, 1);
                }),
                kind("fat.long-name-checksum", 4, "slots", site -> {
                    Site.Entry file = named(site);
                    for (int i = (file.name().length() + 12) / 13; i > 0; i--) {
                        long at = file.place().entryByte() - (long) SLOT * i + 13;
                        site.put(at, 1, site.number(at, 1) ^ 0x5A);
                    }
                }),
                new FaultKind("fat.high-word-zero", "fat.high-word-zero", 3, Area.FAT16, "slots",
                        site -> site.put(file(site).place().entryByte() + 20, 2, 1 + site.below(9))),
                kind("fat.empty-file-no-cluster", 4, "slots", site -> {
                    long slot = file(site).place().entryByte();
                    site.put(slot + 28, 4, 0).seenAt(slot + 26, 6);
                }),
                kind("fat.nothing-after-end-slot", 4, "slots", FatFolderFaults::after),
                kind("fat.name-unique", 4, "slots", FatFolderFaults::unique));
    }

    private static FaultKind kind(String check, int level, String zone, FaultKind.Planting planting) {
        return new FaultKind(check, check, level, Area.FAT, zone, planting);
    }

    private static Site.Entry folder(Site site) {
        return site.pick(site.entries(Site.Entry::folder), "a folder");
    }

    private static Site.Entry file(Site site) {
        return site.pick(site.entries(e -> !e.folder() && !e.place().runs().isEmpty()), "a file");
    }

    private static boolean isPlain(String name) {
        return name.matches("[A-Z0-9_]{4,8}(\\.[A-Z0-9_]{1,3})?");
    }

    /** A file without a long name. */
    private static Site.Entry plain(Site site) {
        return site.pick(site.entries(e -> !e.folder() && isPlain(e.name())), "a file with a short name only");
    }

    /** A file with a long name. */
    private static Site.Entry named(Site site) {
        return site.pick(site.entries(e -> !e.folder() && !isPlain(e.name())), "a file with a long name");
    }

    /** A slot behind the first 00 of a folder is not free. */
    private static void after(Site site) throws IOException {
        Site.Entry folder = folder(site);
        long first = folder.place().runs().get(0).firstByte();
        for (int i = 2; i < site.clusterBytes() / SLOT - 2; i++) {
            if (site.number(first + (long) i * SLOT, 1) == 0) {
                byte[] slot = site.read(first + SLOT * 2L, SLOT);
                site.put(first + (i + 1L) * SLOT, slot);
                return;
            }
        }
        throw new FaultKind.NoPlaceException("the folder is full");
    }

    private static void unique(Site site) throws IOException {
        Site.Entry file = plain(site);
        Site.Entry other = site.pick(site.entries(e -> !e.path().equals(file.path()) && e.parent().equals(file.parent()) && isPlain(e.name())
                && !e.folder()), "a file beside it");
        site.put(file.place().entryByte(), site.read(other.place().entryByte(), 11));
        long later = Math.max(file.place().entryByte(), other.place().entryByte());
        site.seenAt(later, 11);
    }
}
