package sectorglass.fat;

import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Outcome;

/**
 * The first two entries of each FAT: media byte, end mark, and the two flags that systems keep there. Source: Microsoft FAT
 * specification, "FAT Volume Initialization" and "File Allocation Table data structure".
 */
final class HeadCheck {

    private final VolumeSite site;
    private final Found found;
    private final Geometry geometry;
    private final Checks out;

    HeadCheck(VolumeSite site, Found found, Checks out) {
        this.site = site;
        this.found = found;
        this.geometry = found.geometry();
        this.out = out;
    }

    void run() {
        int copies = Math.min(geometry.fats(), 16);
        boolean oneActive = found.layout() != null && found.layout().oneActive();
        for (int copy = 0; copy < copies; copy++) {
            if (!oneActive || copy == found.layout().activeFat()) {
                copy(copy);
            }
        }
        state();
    }

    private void copy(int copy) {
        long at = geometry.fatByte(copy);
        int width = geometry.kind() == FatKind.FAT32 ? 4 : 2;
        Window head = site.window(at, 8);
        ByteRange fat = new ByteRange(head.start(), geometry.fatBytes());
        ByteRange second = head.range(geometry.kind() == FatKind.FAT12 ? 1 : width, width);
        Checks here = out.in(fat);
        here.check("fat.media-matches-first-entry", head.range(0, width), () -> media(head, copy));
        here.check("fat.first-entries-end-marks", second, () -> {
            int entry = entry(head, 1) | cleanMask() | errorMask();
            return Outcome.test(geometry.kind().isEnd(entry), geometry.kind().hex(entry(head, 1)), "an end mark").with("copy", copy + 1);
        });
        if (geometry.kind() != FatKind.FAT12 && copy == FatTable.trusted(site, geometry, found.layout())[0]) {
            here.check("fat.closed-cleanly", second, () -> Outcome.test((entry(head, 1) & cleanMask()) != 0,
                    geometry.kind().hex(entry(head, 1)), "bit " + Text.hex(cleanMask(), geometry.kind().bits() / 4) + " set")
                    .with("where", "FAT"));
            here.check("fat.no-media-errors-recorded", second, () -> Outcome.test((entry(head, 1) & errorMask()) != 0,
                    geometry.kind().hex(entry(head, 1)), "bit " + Text.hex(errorMask(), geometry.kind().bits() / 4) + " set"));
        }
    }

    /** Where all copies agree against the boot sector, the boot sector's byte is the odd one out. */
    private Outcome media(Window head, int copy) {
        if (found.layout() == null) {
            return null;
        }
        int stored = entry(head, 0);
        int ones = geometry.kind().mask() & ~0xFF;
        Window first = site.window(geometry.fatByte(0), 8);
        if (copy > 0 && first.isRead(0, 4) && entry(first, 0) == stored && (stored & ones) != ones) {
            // the first copy was reported for it
            return null;
        }
        if ((stored & ones) != ones) {
            return Outcome.failed(geometry.kind().hex(stored), geometry.kind().hex(ones | found.layout().media())).with("copy", copy + 1);
        }
        boolean agrees = (stored & 0xFF) == found.layout().media();
        if (agrees) {
            return Outcome.passed();
        }
        Window other = site.window(geometry.fatByte(copy == 0 ? 1 : 0), 1);
        boolean allAgainst = geometry.fats() == 1 || other.isRead(0, 1) && other.u8(0) == (stored & 0xFF);
        if (allAgainst && copy > 0) {
            return null;
        }
        Outcome failed = Outcome.failed(geometry.kind().hex(stored), geometry.kind().hex(ones | found.layout().media()))
                .with("copy", copy + 1);
        return allAgainst ? failed.at(found.layout().at(BootSector.MEDIA, 1)) : failed;
    }

    private int entry(Window head, int cluster) {
        return switch (geometry.kind()) {
            case FAT12 -> cluster == 0 ? head.u16le(0) & 0xFFF : head.u16le(1) >> 4;
            case FAT16 -> head.u16le(cluster * 2);
            case FAT32 -> (int) head.u32le(cluster * 4) & 0x0FFFFFFF;
        };
    }

    private int cleanMask() {
        return geometry.kind() == FatKind.FAT16 ? 0x8000 : geometry.kind() == FatKind.FAT32 ? 0x08000000 : 0;
    }

    private int errorMask() {
        return cleanMask() >> 1;
    }

    /** The state byte that Linux and fsck.fat use (msdos_fs.h FAT_STATE_DIRTY); only the main boot sector's is kept up to date. */
    private void state() {
        BootSector main = found.main();
        int at = geometry.kind() == FatKind.FAT32 ? 65 : 37;
        if (main.window().isRead(0, BootSector.SIZE) && found.source() != Found.Source.MAIN) {
            return;
        }
        out.in(main.at(0, BootSector.SIZE)).check("fat.closed-cleanly", main.at(at, 1), () -> Outcome.test(
                (main.window().u8(at) & 1) == 0, Text.hex(main.window().u8(at), 2), "bit 0 clear").with("where", "boot sector"));
    }
}
