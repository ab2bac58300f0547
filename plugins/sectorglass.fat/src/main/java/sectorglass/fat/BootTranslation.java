package sectorglass.fat;

import java.util.ArrayList;
import java.util.List;

import sectorglass.disk.Repair;
import sectorglass.disk.RepairTexts;
import sectorglass.disk.Translation;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** The boot sector and its backup for another sector size: all counts of sectors change, FATs and clusters stay where they are. */
final class BootTranslation {
    private final VolumeSite site;
    private final Found found;
    private final RepairTexts texts;

    BootTranslation(VolumeSite site, Found found, RepairTexts texts) {
        this.site = site;
        this.found = found;
        this.texts = texts;
    }

    Translation to(int size) {
        Geometry g = found.geometry();
        BootSector boot = found.layout();
        if (found.source() != Found.Source.MAIN || g == null || boot == null || !boot.window().isRead(0, BootSector.SIZE)) {
            return Translation.refused(texts.of("translate.no-boot"));
        }
        long reserved = (long) boot.reserved() * g.sectorBytes();
        long fat = g.fatBytes();
        long root = (long) boot.rootEntries() * 32;
        if (reserved % size != 0 || fat % size != 0 || g.clusterBytes() % size != 0 || root % size != 0 || g.bytes() % size != 0
                || site.firstByte() % size != 0) {
            return Translation.refused(texts.of("translate.uneven", size));
        }
        long perCluster = g.clusterBytes() / size;
        long total = g.bytes() / size;
        if (perCluster > 128 || perCluster < 1 || reserved / size > 0xFFFF || reserved == 0
                || g.kind() != FatKind.FAT32 && fat / size > 0xFFFF) {
            return Translation.refused(texts.of("translate.range", size));
        }
        byte[] now = boot.window().raw(0, BootSector.SIZE);
        put(now, BootSector.BYTES_PER_SECTOR, 2, size);
        put(now, BootSector.SECTORS_PER_CLUSTER, 1, perCluster);
        put(now, BootSector.RESERVED, 2, reserved / size);
        put(now, BootSector.HIDDEN, 4, site.firstByte() / size);
        boolean small = total < 65536 && g.kind() != FatKind.FAT32;
        put(now, BootSector.TOTAL16, 2, small ? total : 0);
        put(now, BootSector.TOTAL32, 4, small ? 0 : total);
        put(now, g.kind() == FatKind.FAT32 ? BootSector.FAT_SIZE32 : BootSector.FAT_SIZE16, g.kind() == FatKind.FAT32 ? 4 : 2, fat / size);
        return g.kind() == FatKind.FAT32 ? wide(now, boot, size) : Translation.of(List.of(new Repair.Change(site.firstByte(), now,
                texts.of("translate.boot", size))), List.of());
    }

    /** FAT32: FSInfo goes to sector 1 and the copies of both to sectors 6 and 7 of the new size. */
    private Translation wide(byte[] now, BootSector boot, int size) {
        int old = found.geometry().sectorBytes();
        Window info = InfoCheck.info(site, found);
        long reserved = (long) boot.reserved() * old;
        if (reserved < 8L * size || info == null || !info.isRead(0, BootSector.SIZE)) {
            return Translation.refused(texts.of("translate.room", size));
        }
        put(now, BootSector.INFO_SECTOR, 2, 1);
        put(now, BootSector.BACKUP_SECTOR, 2, Recognition.BACKUP_SECTOR);
        byte[] about = info.raw(0, BootSector.SIZE);
        List<Repair.Change> changes = new ArrayList<>();
        long first = site.firstByte();
        changes.add(new Repair.Change(first, now, texts.of("translate.boot", size)));
        changes.add(new Repair.Change(first + size, about, texts.of("translate.info", 1)));
        changes.add(new Repair.Change(first + 6L * size, now.clone(), texts.of("translate.copy", 6)));
        changes.add(new Repair.Change(first + 7L * size, about.clone(), texts.of("translate.info", 7)));
        return Translation.of(changes, List.of());
    }

    private static void put(byte[] bytes, int at, int width, long value) {
        for (int i = 0; i < width; i++) {
            bytes[at + i] = (byte) (value >>> 8 * i);
        }
    }
}
