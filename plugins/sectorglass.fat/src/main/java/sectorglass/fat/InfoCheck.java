package sectorglass.fat;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/**
 * The FAT32 information sector and the backup boot sector. Source: Microsoft FAT specification, "FSInfo structure" and "Backup Boot
 * Sector". Only the boot sector is compared with its backup: the copy of FSInfo is written by the formatter and grows stale.
 */
final class InfoCheck {

    static final int LEAD = 0;         // "RRaA"
    static final int STRUCTURE = 484;  // "rrAa"
    static final int FREE = 488;       // u4, clusters
    static final int HINT = 492;       // u4, cluster
    static final int TRAIL = 508;      // 00 00 55 AA
    static final long UNKNOWN = 0xFFFFFFFFL;
    private static final int STATE = 65;

    private final VolumeSite site;
    private final Found found;
    private final Geometry geometry;
    private final Checks out;
    private final Mark lead;
    private Mark signatures;
    private Window info;

    /** @param lead the broken field of the boot sector that makes it unusable, or null */
    InfoCheck(VolumeSite site, Found found, Mark lead, Checks out) {
        this.lead = lead;
        this.site = site;
        this.found = found;
        this.geometry = found.geometry();
        this.out = out;
    }

    /** FSInfo, or null where the boot sector names none that can be one. */
    static Window info(VolumeSite site, Found found) {
        BootSector layout = found.layout();
        if (layout == null || !layout.form32() || layout.infoSector() == 0 || layout.infoSector() >= layout.reserved()
                || layout.infoSector() == layout.backupSector()) {
            return null;
        }
        return site.window((long) layout.infoSector() * found.geometry().sectorBytes(), BootSector.SIZE);
    }

    void run() {
        info = info(site, found);
        if (nameless()) {
            Window boot = found.main().window();
            for (String rule : new String[] {"fat32.info-signatures", "fat32.info-hint-in-range", "fat32.backup-equals-boot"}) {
                out.in(boot.range()).check(rule, boot.range(), () -> nowhere(boot));
            }
        }
        if (info != null) {
            signatures = out.in(info.range()).check("fat32.info-signatures", info.range(LEAD, 4), this::signatures);
            out.in(info.range()).check("fat32.info-hint-in-range", info.range(HINT, 4), () -> {
                long hint = info.u32le(HINT);
                return signatures.failed() ? null : Outcome.test(hint == UNKNOWN || geometry.exists(hint), hint,
                        "2 to " + geometry.lastCluster() + ", or FFFFFFFF");
            });
        }
        backup();
    }

    /** Whether the boot sector that tells where FSInfo and the backup stand was not read. */
    private boolean nameless() {
        return found.layout() == null && geometry.kind() == FatKind.FAT32 && !found.main().window().isRead(0, BootSector.SIZE);
    }

    private static Outcome nowhere(Window boot) {
        boot.require(0, BootSector.SIZE);
        return null;
    }

    private Outcome signatures() {
        if (!info.matches(LEAD, "RRaA")) {
            return Outcome.failed(Text.bytes(info, LEAD, 4), "52 52 61 41").at(info.range(LEAD, 4));
        }
        if (!info.matches(STRUCTURE, "rrAa")) {
            return Outcome.failed(Text.bytes(info, STRUCTURE, 4), "72 72 41 61").at(info.range(STRUCTURE, 4));
        }
        return Outcome.test(info.matches(TRAIL, 0, 0, 0x55, 0xAA), Text.bytes(info, TRAIL, 4), "00 00 55 AA").at(info.range(TRAIL, 4));
    }

    /** Reports the count of free clusters against what was counted. */
    void freeCount(long free, long unread, sectorglass.image.SectorRanges missing, Mark cause, ChainFaults faults) {
        if (nameless()) {
            Window boot = found.main().window();
            out.in(boot.range()).check("fat32.info-free-count", boot.range(), () -> nowhere(boot));
        }
        if (info == null) {
            return;
        }
        out.in(info.range()).check("fat32.info-free-count", info.range(FREE, 4), () -> {
            long stored = info.u32le(FREE);
            if (stored == UNKNOWN || signatures.failed()) {
                return null;
            }
            boolean possible = stored >= free && stored <= free + unread;
            if (unread > 0 && possible) {
                return Outcome.unread(missing);
            }
            return Outcome.test(possible, stored, unread == 0 ? free : free + " to " + (free + unread))
                    .because(cause != null ? cause : faults.free(free - stored));
        });
    }

    private void backup() {
        BootSector layout = found.layout();
        if (layout == null || !layout.form32() || layout.backupSector() == 0 || layout.backupSector() >= layout.reserved()) {
            return;
        }
        long at = (long) layout.backupSector() * geometry.sectorBytes();
        Window copy = site.window(at, BootSector.SIZE);
        Window main = found.main().window();
        out.in(copy.range()).check("fat32.backup-equals-boot", copy.range(), () -> compare(main, copy));
    }

    private Outcome compare(Window main, Window copy) {
        copy.require(0, BootSector.SIZE);
        main.require(0, BootSector.SIZE);
        int first = -1;
        int last = -1;
        int count = 0;
        boolean fields = false;
        for (int i = 0; i < BootSector.SIZE; i++) {
            if (i != STATE && main.u8(i) != copy.u8(i)) {
                first = first < 0 ? i : first;
                last = i;
                count++;
                fields |= i >= BootSector.BYTES_PER_SECTOR && i <= 63;
            }
        }
        if (first < 0) {
            return Outcome.passed();
        }
        int shown = Math.min(last - first + 1, 16);
        ByteRange where = copy.range(first, last - first + 1);
        return Outcome.failed(Text.bytes(copy, first, shown), Text.bytes(main, first, shown)).at(where).with("bytes", count)
                .with("first", first).with("last", last).because(lead)
                .severity(fields ? sectorglass.verify.Severity.AT_RISK : sectorglass.verify.Severity.COSMETIC);
    }
}
