package sectorglass.fat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;

import sectorglass.disk.Repair;
import sectorglass.disk.RepairTexts;
import sectorglass.disk.Repairs;
import sectorglass.disk.SectorEdit;
import sectorglass.disk.Translation;
import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;

/** The boot sector from its backup or from FAT copies and directories, the backup from the boot sector, and FSInfo. */
final class FatRepairs implements Repairs {
    /** Byte 65 holds "closed cleanly" and is kept up to date in the boot sector only. */
    private static final int STATE = 65;
    private final VolumeSite site;
    private final Found found;
    private final FatVolume volume;

    FatRepairs(FatVolume volume) {
        this.volume = volume;
        this.site = volume.site();
        this.found = volume.found();
    }

    @Override
    public List<Repair> propose(Locale locale) {
        RepairTexts texts = new RepairTexts(FatRules.class, locale);
        List<Repair> all = new ArrayList<>();
        if (found.geometry() == null) {
            return all;
        }
        if (found.source() == Found.Source.GUESS) {
            new GuessedBoot(volume, texts).propose().ifPresent(all::add);
        } else if (found.layout().form32()) {
            boots(texts, all);
            new InfoRepair(volume, texts).propose().ifPresent(all::add);
        }
        return all;
    }

    private void boots(RepairTexts texts, List<Repair> all) {
        int sector = found.geometry().sectorBytes();
        if (found.source() == Found.Source.BACKUP) {
            copy(found.layoutByte(), 0, "fat32.boot-from-backup", 90, texts).ifPresent(all::add);
            return;
        }
        int backup = found.layout().backupSector();
        if (backup == 0 || backup >= found.layout().reserved() || !found.main().window().isRead(0, BootSector.SIZE)) {
            return;
        }
        Window copy = site.window((long) backup * sector, BootSector.SIZE);
        if (!copy.isRead(0, BootSector.SIZE)) {
            copy(0, (long) backup * sector, "fat32.backup-from-boot", 80, texts).ifPresent(all::add);
            return;
        }
        if (same(found.main().window(), copy)) {
            return;
        }
        boolean mainGood = good(found.main());
        boolean copyGood = good(new BootSector(copy));
        if (copyGood) {
            copy((long) backup * sector, 0, "fat32.boot-from-backup", mainGood ? 40 : 80, texts).ifPresent(all::add);
        }
        if (mainGood) {
            copy(0, (long) backup * sector, "fat32.backup-from-boot", copyGood ? 60 : 80, texts).ifPresent(all::add);
        }
    }

    private static boolean same(Window one, Window two) {
        byte[] a = one.raw(0, BootSector.SIZE);
        byte[] b = two.raw(0, BootSector.SIZE);
        a[STATE] = b[STATE];
        return Arrays.equals(a, b);
    }

    /** Signed, locating FATs and a root directory that look like it. */
    private boolean good(BootSector boot) {
        Geometry geometry = boot.namesAnother() ? null : Geometry.of(boot);
        return geometry != null && boot.signed() && boot.form32() && Recognition.score(site, boot, geometry) >= 60
                && geometry.exists(geometry.rootCluster()) && rootLooks(geometry);
    }

    private boolean rootLooks(Geometry geometry) {
        long at = geometry.clusterByte(geometry.rootCluster());
        if (!site.has(at, 32)) {
            return false;
        }
        Window slot = site.window(at, 32);
        return slot.u8(0) == 0 ? slot.filled(0, 32, 0) : slot.u8(0) >= 0x20 && (slot.u8(11) & 0xC0) == 0;
    }

    private Optional<Repair> copy(long from, long to, String id, int confidence, RepairTexts texts) {
        int size = site.image().sectorSize();
        Window source = site.window(from, BootSector.SIZE);
        if (!source.isRead(0, BootSector.SIZE) || (site.firstByte() + to) % size != 0) {
            return Optional.empty();
        }
        SectorEdit edit = new SectorEdit(site.image(), site.firstByte() + to, Math.max(BootSector.SIZE, size));
        edit.put(0, source.raw(0, BootSector.SIZE), texts.of("why.copy", (site.firstByte() + from) / size));
        List<Repair.Change> changes = edit.changes(texts.of("why.unread"));
        return changes.isEmpty() ? Optional.empty() : Optional.of(new Repair(id, texts.of(id + ".title", (site.firstByte() + to) / size),
                texts.of(id + ".reason", (site.firstByte() + from) / size), confidence, false, changes,
                from == 0 ? List.of() : List.of(texts.of("against.stale")), List.of()));
    }

    @Override
    public List<Repair.Change> dependents(ByteRange changed, SectorImage image, Locale locale) {
        boolean boot = changed.start() < site.firstByte() + BootSector.SIZE && changed.end() > site.firstByte();
        if (!boot || found.source() != Found.Source.MAIN || found.geometry() == null || !found.layout().form32()
                || found.layout().backupSector() == 0) {
            return List.of();
        }
        Window now = image.window(site.firstByte(), BootSector.SIZE);
        long to = site.firstByte() + (long) found.layout().backupSector() * found.geometry().sectorBytes();
        if (!now.isRead(0, BootSector.SIZE) || to % image.sectorSize() != 0 || same(now, image.window(to, BootSector.SIZE))) {
            return List.of();
        }
        RepairTexts texts = new RepairTexts(FatRules.class, locale);
        return new SectorEdit(image, to, Math.max(BootSector.SIZE, image.sectorSize()))
                .put(0, now.raw(0, BootSector.SIZE), texts.of("why.copy-follows")).changes("");
    }

    @Override
    public OptionalLong statedFirst() {
        if (found.layout() == null || found.geometry() == null || !found.layout().window().isRead(0, BootSector.SIZE)) {
            return OptionalLong.empty();
        }
        return OptionalLong.of(found.layout().hidden() * found.geometry().sectorBytes() / site.image().sectorSize());
    }

    @Override
    public Translation translate(int sectorSize, Locale locale) {
        return new BootTranslation(site, found, new RepairTexts(FatRules.class, locale)).to(sectorSize);
    }
}
