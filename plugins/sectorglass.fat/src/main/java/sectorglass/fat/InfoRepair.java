package sectorglass.fat;

import java.util.List;
import java.util.Optional;

import sectorglass.disk.Repair;
import sectorglass.disk.RepairTexts;
import sectorglass.disk.SectorEdit;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** FSInfo: its three signatures, and free clusters by counting. */
final class InfoRepair {
    /** A larger FAT is not counted here; the count is then left open, which is legal. */
    private static final long MOST_COUNTED = 64L << 20;

    private final VolumeSite site;
    private final Found found;
    private final FatVolume volume;
    private final RepairTexts texts;

    InfoRepair(FatVolume volume, RepairTexts texts) {
        this.volume = volume;
        this.site = volume.site();
        this.found = volume.found();
        this.texts = texts;
    }

    Optional<Repair> propose() {
        Window info = InfoCheck.info(site, found);
        int size = site.image().sectorSize();
        if (info == null || info.start() % size != 0) {
            return Optional.empty();
        }
        boolean read = info.isRead(0, BootSector.SIZE);
        boolean signed = read && info.matches(InfoCheck.LEAD, "RRaA") && info.matches(InfoCheck.STRUCTURE, "rrAa")
                && info.matches(InfoCheck.TRAIL, 0, 0, 0x55, 0xAA);
        boolean hintGood = read && (info.u32le(InfoCheck.HINT) == InfoCheck.UNKNOWN || found.geometry().exists(info.u32le(InfoCheck.HINT)));
        if (signed && hintGood) {
            return Optional.empty();
        }
        SectorEdit edit = new SectorEdit(site.image(), info.start(), Math.max(BootSector.SIZE, size));
        String fixed = texts.of("why.info-fixed");
        edit.put(InfoCheck.LEAD, fixed, 'R', 'R', 'a', 'A');
        edit.put(InfoCheck.STRUCTURE, fixed, 'r', 'r', 'A', 'a');
        edit.put(InfoCheck.TRAIL, fixed, 0, 0, 0x55, 0xAA);
        if (!signed) {
            edit.zero(InfoCheck.LEAD + 4, InfoCheck.STRUCTURE - 4, fixed);
            edit.zero(InfoCheck.HINT + 4, InfoCheck.TRAIL - InfoCheck.HINT - 4, fixed);
            long free = free();
            edit.le(InfoCheck.FREE, 4, free, texts.of(free == InfoCheck.UNKNOWN ? "why.info-unknown" : "why.info-free", free));
        }
        edit.le(InfoCheck.HINT, 4, InfoCheck.UNKNOWN, texts.of("why.info-hint"));
        return Optional.of(new Repair("fat32.info", texts.of("fat32.info.title", info.start() / size), texts.of("fat32.info.reason"), 85,
                false, edit.changes(texts.of("why.unread")), List.of(), List.of()));
    }

    private long free() {
        Geometry geometry = found.geometry();
        if (geometry.tableBytes() > MOST_COUNTED) {
            return InfoCheck.UNKNOWN;
        }
        FatTable table = volume.table();
        long free = 0;
        for (int cluster = 2; cluster <= geometry.lastCluster(); cluster++) {
            int entry = table.entry(cluster);
            if (entry == FatTable.UNREAD) {
                return InfoCheck.UNKNOWN;
            }
            free += entry == 0 ? 1 : 0;
        }
        return free;
    }
}
