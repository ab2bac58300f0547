package sectorglass.practice.fault;

import java.io.IOException;
import java.util.List;

/** Faults of the boot sector of NTFS, its copy and the first file records (Linux kernel fs/ntfs3/ntfs.h, NTFS_BOOT and MFT_REC). */
final class NtfsBootFaults {
    private static final int RECORD = 1024;

    private NtfsBootFaults() {
    }

    static List<FaultKind> kinds() {
        return List.of(
                kind("ntfs.boot.hidden-sectors", 2, "boot", site -> both(site, 0x1C, 4, 63)),
                kind("ntfs.boot.zero-fields", 2, "boot", site -> both(site, 0x0E, 2, 1 + site.below(64))),
                kind("ntfs.boot.end-marker", 1, "boot", site -> both(site, 510, 2, 0)),
                kind("ntfs.boot.total-sectors", 3, "boot", NtfsBootFaults::total),
                kind("ntfs.boot.backup-equal", 2, "boot", site -> site.flip(site.place("backup boot") + 0x48 + site.below(8), site.someByte())),
                kind("ntfs.boot.mirror-lcn", 4, "boot", site -> both(site, 0x38, 8, site.number(site.place("boot") + 0x30, 8))),
                kind("ntfs.mirror.equal", 3, "system", site -> site.flip(site.place("mirror") + RECORD + 0x60L + site.below(16), site.someByte())),
                kind("ntfs.volume.dirty", 3, "system", NtfsBootFaults::dirty));
    }

    private static FaultKind kind(String check, int level, String zone, FaultKind.Planting planting) {
        return new FaultKind(check, check, level, Area.NTFS, zone, planting);
    }

    /** The same in the boot sector and its copy. */
    private static void both(Site site, int offset, int width, long value) throws IOException {
        site.put(site.place("boot") + offset, width, value).put(site.place("backup boot") + offset, width, value);
    }

    private static void total(Site site) throws IOException {
        both(site, 0x28, 8, site.number(site.place("boot") + 0x28, 8) + 5000 + site.below(100_000));
    }

    /** The dirty flag in the record of $Volume, and in the mirror of it. */
    private static void dirty(Site site) throws IOException {
        for (String table : new String[] {"records", "mirror"}) {
            long record = site.place(table) + 3L * RECORD;
            site.flip(NtfsRecordFaults.value(site, record, 0x70) + 10, 1);
        }
    }
}
