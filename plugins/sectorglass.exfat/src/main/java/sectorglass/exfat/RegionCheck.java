package sectorglass.exfat;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;

/**
 * Main and backup boot region: checksums, equality, signatures of the extended boot sectors. Source: Microsoft exFAT specification, sections 3.1 to 3.4.
 */
final class RegionCheck {

    private static final int EXTENDED = 8;

    private final BootRegion main;
    private final BootRegion backup;
    private final Mark lead;
    private final Checks out;
    private final int size;
    private Mark mainSum;
    private Mark backupSum;

    /** @param lead the broken field of the main boot sector, or null */
    RegionCheck(BootRegion main, BootRegion backup, Mark lead, Checks out) {
        this.main = main;
        this.backup = backup;
        this.lead = lead;
        this.out = out;
        this.size = main.sectorBytes();
    }

    void run() {
        mainSum = sum("exfat.main-checksum", main, backup, lead);
        backupSum = sum("exfat.backup-checksum", backup, main, null);
        Mark equal = out.in(backup.window().range()).check("exfat.backup-equals-main", backup.window().range(0, BootRegion.CHECKED * size),
                this::equal);
        Mark mainSigns = extended(main, mainSum);
        extended(backup, equal.failed() ? equal : backupSum.failed() ? backupSum : mainSigns);
    }

    private Mark sum(String rule, BootRegion region, BootRegion other, Mark cause) {
        Window window = region.window();
        ByteRange where = window.range(BootRegion.CHECKED * size, 4);
        return out.in(window.range()).check(rule, where, () -> {
            SectorRanges missing = window.missing(0, window.length());
            int first = firstRead(window);
            if (first < 0) {
                return Outcome.unread(missing);
            }
            boolean whole = region.missing().isEmpty();
            // without all of the region, repeats that differ from each other are still wrong
            int sum = whole ? region.checksum() : (int) window.u32le(first);
            for (int at = BootRegion.CHECKED * size; at < window.length(); at += 4) {
                if (window.isRead(at, 4) && (int) window.u32le(at) != sum) {
                    boolean bytesOdd = (int) window.u32le(window.length() - 4) == (int) window.u32le(BootRegion.CHECKED * size);
                    ByteRange odd = whole && bytesOdd ? oddByte(region, other) : null;
                    return Outcome.failed(Text.sum((int) window.u32le(at)), Text.sum(sum)).at(odd != null ? odd : window.range(at, 4))
                            .because(cause);
                }
            }
            return missing.isEmpty() ? Outcome.passed() : Outcome.unread(missing);
        });
    }

    /** Offset of the first stored copy of the checksum that was read, or -1. */
    private int firstRead(Window window) {
        for (int at = BootRegion.CHECKED * size; at < window.length(); at += 4) {
            if (window.isRead(at, 4)) {
                return at;
            }
        }
        return -1;
    }

    /** The first byte in which the region differs from the other one, where that is sound: it is the changed one. */
    private ByteRange oddByte(BootRegion region, BootRegion other) {
        if (!other.sound()) {
            return null;
        }
        int at = firstDifference(region.window(), other.window());
        return at < 0 ? null : region.window().range(at, 1);
    }

    private int firstDifference(Window one, Window two) {
        for (int at = 0; at < BootRegion.CHECKED * size; at++) {
            if (!BootRegion.skipped(at) && one.isRead(at, 1) && two.isRead(at, 1) && one.u8(at) != two.u8(at)) {
                return at;
            }
        }
        return -1;
    }

    private Outcome equal() {
        int at = firstDifference(main.window(), backup.window());
        if (at >= 0) {
            Mark cause = mainSum.failed() ? mainSum : backupSum.failed() ? backupSum : lead;
            return Outcome.failed(Text.bytes(backup.window(), at, 1), Text.bytes(main.window(), at, 1))
                    .at(backup.window().range(at, 1)).with("first", at).because(cause);
        }
        SectorRanges missing = main.missing().union(backup.missing());
        return missing.isEmpty() ? Outcome.passed() : Outcome.unread(missing);
    }

    private Mark extended(BootRegion region, Mark cause) {
        for (int i = 1; i <= EXTENDED; i++) {
            int at = (i + 1) * size - 4;
            Window window = region.window();
            if (window.isRead(at, 4) && !window.matches(at, 0, 0, 0x55, 0xAA)) {
                return out.in(window.range()).report("exfat.extended-signatures", window.range(at, 4),
                        Outcome.failed(Text.bytes(window, at, 4), "00 00 55 AA").because(cause.failed() ? cause : null));
            }
        }
        SectorRanges missing = region.window().missing(size, EXTENDED * size);
        return out.in(region.window().range()).report("exfat.extended-signatures", region.window().range(2 * size - 4, 4),
                missing.isEmpty() ? Outcome.passed() : Outcome.unread(missing));
    }
}
