package sectorglass.fat;

import java.util.List;
import java.util.Optional;

import sectorglass.disk.Repair;
import sectorglass.disk.RepairTexts;
import sectorglass.disk.SectorEdit;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** A boot sector put together from FAT copies and directories: what they determine is written, the rest stays as it stands. */
final class GuessedBoot {
    private static final int INFO = 1;

    private final VolumeSite site;
    private final Geometry geometry;
    private final FatVolume volume;
    private final RepairTexts texts;

    GuessedBoot(FatVolume volume, RepairTexts texts) {
        this.volume = volume;
        this.site = volume.site();
        this.geometry = volume.found().geometry();
        this.texts = texts;
    }

    Optional<Repair> propose() {
        Window fat = site.window(geometry.fatByte(0), 4);
        if (geometry.sectorBytes() % site.image().sectorSize() != 0 || !fat.isRead(0, 4) || geometry.totalSectors() > 0xFFFFFFFFL) {
            return Optional.empty();
        }
        boolean wide = geometry.kind() == FatKind.FAT32;
        SectorEdit edit = new SectorEdit(site.image(), site.firstByte(), geometry.sectorBytes());
        String tables = texts.of("why.tables");
        edit.put(BootSector.JUMP, texts.of("why.jump"), 0xEB, wide ? 0x58 : 0x3C, 0x90);
        edit.le(BootSector.BYTES_PER_SECTOR, 2, geometry.sectorBytes(), texts.of("why.sector-size", geometry.sectorBytes()));
        edit.le(BootSector.SECTORS_PER_CLUSTER, 1, geometry.clusterSectors(), texts.of("why.cluster"));
        edit.le(BootSector.RESERVED, 2, geometry.firstFat(), tables);
        edit.le(BootSector.FATS, 1, geometry.fats(), tables);
        edit.le(BootSector.ROOT_ENTRIES, 2, geometry.rootSlots(), texts.of("why.root"));
        boolean small = geometry.totalSectors() < 65536 && !wide;
        boolean whole = geometry.totalSectors() == site.bytes() / geometry.sectorBytes();
        String total = texts.of(whole ? "why.total" : "why.total-info", geometry.totalSectors());
        edit.le(BootSector.TOTAL16, 2, small ? geometry.totalSectors() : 0, total);
        edit.le(BootSector.TOTAL32, 4, small ? 0 : geometry.totalSectors(), total);
        edit.put(BootSector.MEDIA, texts.of("why.media"), fat.u8(0));
        edit.le(BootSector.FAT_SIZE16, 2, wide ? 0 : geometry.fatSectors(), tables);
        if (wide) {
            wide(edit);
        }
        int sig = wide ? 66 : 38;
        edit.keep(BootSector.OEM_NAME, 8, "BS_OEMName", texts.of("kept.oem"));
        edit.keep(24, 8, "BPB_SecPerTrk, BPB_NumHeads, BPB_HiddSec", texts.of("kept.geometry"));
        edit.keep(sig - 2, 1, "BS_DrvNum", texts.of("kept.geometry"));
        edit.zero(sig - 1, 1, texts.of("why.version"));
        edit.keep(sig + 1, 4, "BS_VolID", texts.of("kept.serial"));
        edit.keep(sig + 24, BootSector.SIGNATURE - sig - 24, "boot code", texts.of("kept.boot-code"));
        String label = volume.root().label();
        String text = String.format("%-11s", label == null ? "NO NAME" : label);
        byte[] stored = text.getBytes(java.nio.charset.StandardCharsets.ISO_8859_1);
        if (stored.length == 11) {
            edit.put(sig, texts.of("why.boot-sig"), 0x29);
            edit.put(sig + 5, stored, texts.of("why.label"));
        }
        edit.put(sig + 16, (wide ? "FAT32   " : geometry.kind() == FatKind.FAT16 ? "FAT16   " : "FAT12   ")
                .getBytes(java.nio.charset.StandardCharsets.US_ASCII), texts.of("why.type-text"));
        edit.put(BootSector.SIGNATURE, texts.of("why.jump"), 0x55, 0xAA);
        return Optional.of(new Repair("fat.boot-from-tables", texts.of("fat.boot-from-tables.title", site.range().first()),
                texts.of("fat.boot-from-tables.reason", geometry.fats()), 60, false, edit.changes(texts.of("why.unread")),
                List.of(texts.of(whole ? "against.total" : "against.total-info")), edit.kept()));
    }

    private void wide(SectorEdit edit) {
        edit.le(BootSector.FAT_SIZE32, 4, geometry.fatSectors(), texts.of("why.tables"));
        edit.le(BootSector.EXT_FLAGS, 2, 0, texts.of("why.mirrored"));
        edit.le(BootSector.VERSION, 2, 0, texts.of("why.version"));
        edit.le(BootSector.ROOT_CLUSTER, 4, geometry.rootCluster(), texts.of("why.root"));
        Window info = site.window((long) INFO * geometry.sectorBytes(), 4);
        boolean stands = info.isRead(0, 4) && info.matches(0, "RRaA");
        edit.le(BootSector.INFO_SECTOR, 2, geometry.firstFat() > INFO ? INFO : 0, texts.of(stands ? "why.info" : "why.no-info"));
        edit.le(BootSector.BACKUP_SECTOR, 2, geometry.firstFat() > Recognition.BACKUP_SECTOR + 1 ? Recognition.BACKUP_SECTOR : 0,
                texts.of("why.backup"));
        edit.zero(BootSector.RESERVED32, 12, texts.of("why.version"));
    }
}
