package sectorglass.exfat;

import java.util.ArrayList;
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

/** The boot regions from each other, their checksum, and both from bitmap, up-case table and root directory. */
final class ExfatRepairs implements Repairs {
    private final VolumeSite site;
    private final Found found;

    ExfatRepairs(VolumeSite site, Found found) {
        this.site = site;
        this.found = found;
    }

    @Override
    public List<Repair> propose(Locale locale) {
        List<Repair> all = new ArrayList<>();
        Geometry geometry = found.geometry();
        if (geometry == null || geometry.sectorBytes() % site.image().sectorSize() != 0) {
            return all;
        }
        RepairTexts texts = new RepairTexts(ExfatRules.class, locale);
        if (found.source() == Found.Source.STRUCTURES) {
            BuiltBoot built = new BuiltBoot(site, geometry, texts);
            all.add(BuiltBoot.joined(site, geometry.sectorBytes(), built, texts).orElseGet(built::repair));
            return all;
        }
        BootRegion main = BootRegion.of(site, BootRegion.MAIN, geometry.sectorBytes());
        BootRegion backup = BootRegion.of(site, BootRegion.BACKUP, geometry.sectorBytes());
        boolean mainSound = sound(main);
        boolean backupSound = sound(backup);
        if (!mainSound && backupSound) {
            copy(backup, main, "exfat.main-from-backup", texts).ifPresent(all::add);
        } else if (mainSound && !backupSound) {
            copy(main, backup, "exfat.backup-from-main", texts).ifPresent(all::add);
        } else if (!mainSound && joined(geometry, texts).map(all::add).orElse(false)) {
            return all;
        } else if (!mainSound && main.missing().isEmpty() && Recognition.plausible(main.boot(), geometry)) {
            List<Repair.Change> changes = checksum(site.image(), main, texts);
            if (!changes.isEmpty()) {
                all.add(new Repair("exfat.checksum", texts.of("exfat.checksum.title"), texts.of("exfat.checksum.reason"), 30, true, changes,
                        List.of(texts.of("against.checksum")), List.of()));
            }
        }
        return all;
    }

    /** Neither region is sound: one from both, proven by a checksum that is left. */
    private Optional<Repair> joined(Geometry geometry, RepairTexts texts) {
        int size = geometry.sectorBytes();
        BuiltBoot structures = size == site.image().sectorSize() ? LostBoot.at(site, true).map(built -> new BuiltBoot(site, built, texts)).orElse(null) : null;
        return BuiltBoot.joined(site, size, structures, texts);
    }

    /** Zeros alone have a checksum that holds, too. */
    private static boolean sound(BootRegion region) {
        return region.sound() && region.boot().named();
    }

    private Optional<Repair> copy(BootRegion from, BootRegion to, String id, RepairTexts texts) {
        int size = site.image().sectorSize();
        int length = BootRegion.SECTORS * to.sectorBytes();
        SectorEdit edit = new SectorEdit(site.image(), to.window().start(), length);
        edit.put(0, from.window().raw(0, length), texts.of("why.copy", from.window().start() / size));
        List<Repair.Change> changes = edit.changes(texts.of("why.unread"));
        return changes.isEmpty() ? Optional.empty() : Optional.of(new Repair(id, texts.of(id + ".title", to.window().start() / size),
                texts.of(id + ".reason", from.window().start() / size), 95, false, changes,
                to.first() == BootRegion.MAIN ? List.of(texts.of("against.flags")) : List.of(), List.of()));
    }

    private static List<Repair.Change> checksum(SectorImage image, BootRegion region, RepairTexts texts) {
        int size = region.sectorBytes();
        SectorEdit edit = new SectorEdit(image, region.window().start() + (long) BootRegion.CHECKED * size, size);
        fill(edit, 0, size, region.checksum(), texts.of("why.checksum"));
        return edit.changes(texts.of("why.unread"));
    }

    static void fill(SectorEdit edit, int from, int length, int sum, String why) {
        for (int at = from; at < from + length; at += 4) {
            edit.le(at, 4, sum & 0xFFFFFFFFL, why);
        }
    }

    @Override
    public List<Repair.Change> dependents(ByteRange changed, SectorImage image, Locale locale) {
        List<Repair.Change> all = new ArrayList<>();
        Geometry geometry = found.geometry();
        if (geometry == null || geometry.sectorBytes() % image.sectorSize() != 0) {
            return all;
        }
        RepairTexts texts = new RepairTexts(ExfatRules.class, locale);
        VolumeSite now = new VolumeSite(image, site.range(), site.type());
        int checked = BootRegion.CHECKED * geometry.sectorBytes();
        BootRegion main = BootRegion.of(now, BootRegion.MAIN, geometry.sectorBytes());
        BootRegion backup = BootRegion.of(now, BootRegion.BACKUP, geometry.sectorBytes());
        boolean inMain = new ByteRange(main.window().start(), checked).overlaps(changed);
        if (inMain && main.missing().isEmpty()) {
            all.addAll(checksum(image, main, texts));
            byte[] head = main.window().raw(0, checked);
            SectorEdit copy = new SectorEdit(image, backup.window().start(), checked);
            for (int i : new int[] {106, 107, 112}) {
                head[i] = copy.read() ? copy.now().get(i) : head[i];
            }
            all.addAll(copy.put(0, head, texts.of("why.copy-follows")).changes(""));
        } else if (new ByteRange(backup.window().start(), checked).overlaps(changed) && backup.missing().isEmpty()) {
            all.addAll(checksum(image, backup, texts));
        }
        return all;
    }

    @Override
    public OptionalLong statedFirst() {
        Window window = found.layout() == null ? null : found.layout().window();
        if (found.geometry() == null || found.source() == Found.Source.STRUCTURES || !window.isRead(0, BootSector.SIZE)) {
            return OptionalLong.empty();
        }
        long stated = found.layout().partitionOffset();
        return stated <= 0 || stated > 1L << 50 ? OptionalLong.empty()
                : OptionalLong.of(stated * found.geometry().sectorBytes() / site.image().sectorSize());
    }

    @Override
    public Translation translate(int sectorSize, Locale locale) {
        RepairTexts texts = new RepairTexts(ExfatRules.class, locale);
        if (found.source() != Found.Source.MAIN || found.geometry() == null) {
            return Translation.refused(texts.of("translate.no-boot"));
        }
        return new BuiltBoot(site, found.geometry(), texts).translate(found.layout(), sectorSize);
    }
}
