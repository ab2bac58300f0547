package sectorglass.ntfs;

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

/** The boot sector from its copy or from file records, the copy from the boot sector, and the first records and their mirror from each other. */
final class NtfsRepairs implements Repairs {
    private final VolumeSite site;
    private final BootFound boot;
    private final Geometry geometry;
    private final TableSource source;

    NtfsRepairs(BootFound boot, TableSource source, VolumeSite site) {
        this.site = site;
        this.boot = boot;
        this.geometry = boot.geometry();
        this.source = source;
    }

    @Override
    public List<Repair> propose(Locale locale) {
        RepairTexts texts = new RepairTexts(NtfsRules.class, locale);
        List<Repair> all = new ArrayList<>();
        if (boot.fromRecords()) {
            new RecordBoot(site, geometry, source.table(), texts).propose().ifPresent(all::add);
            return all;
        }
        boots(texts, all);
        all.addAll(new MirrorRepair(site.image(), geometry, source.table(), texts).propose());
        return all;
    }

    private void boots(RepairTexts texts, List<Repair> all) {
        int length = Math.min(geometry.sectorBytes(), 4096);
        long place = boot.backup() ? boot.byteFound() : geometry.backupByte();
        boolean inside = place > site.firstByte() && place <= site.image().bytes() - length
                && place <= site.firstByte() + Math.max(site.bytes(), 0);
        if (!inside) {
            return;
        }
        Window first = site.window(0, length);
        Window copy = site.image().window(place, length);
        if (boot.backup()) {
            from(copy, site.firstByte(), "ntfs.boot-from-copy", 90, texts, place).ifPresent(all::add);
        } else if (first.isRead(0, length) && !same(first, copy, length)) {
            boolean mainSound = sound(first);
            boolean copySound = copy.isRead(0, length) && sound(copy) && copy.matches(BootSector.END_MARKER, 0x55, 0xAA);
            if (copySound) {
                from(copy, site.firstByte(), "ntfs.boot-from-copy", mainSound ? 40 : 85, texts, place).ifPresent(all::add);
            }
            if (mainSound) {
                from(first, place, "ntfs.copy-from-boot", copySound ? 60 : 85, texts, site.firstByte()).ifPresent(all::add);
            }
        }
    }

    private static boolean same(Window one, Window two, int length) {
        return two.isRead(0, length) && Arrays.equals(one.raw(0, length), two.raw(0, length));
    }

    /** Legal in every field, and a file record stands where it points. */
    private boolean sound(Window window) {
        Geometry stated = BootSector.geometry(window, site.firstByte(), site.bytes());
        if (stated == null || !BootSector.sound(window, stated)) {
            return false;
        }
        Window record = site.image().window(stated.clusterByte(stated.mftLcn()), 4);
        return record.isRead(0, 4) && record.matches(0, "FILE");
    }

    private Optional<Repair> from(Window source, long to, String id, int confidence, RepairTexts texts, long sourceByte) {
        int sector = site.image().sectorSize();
        if (!source.isRead(0, source.length()) || to % sector != 0 || source.length() % sector != 0) {
            return Optional.empty();
        }
        SectorEdit edit = new SectorEdit(site.image(), to, source.length());
        edit.put(0, source.raw(0, source.length()), texts.of("why.copy", sourceByte / sector));
        List<Repair.Change> changes = edit.changes("");
        return changes.isEmpty() ? Optional.empty() : Optional.of(new Repair(id, texts.of(id + ".title", to / sector),
                texts.of(id + ".reason", sourceByte / sector), confidence, false, changes, List.of(), List.of()));
    }

    @Override
    public List<Repair.Change> dependents(ByteRange changed, SectorImage image, Locale locale) {
        int length = Math.min(geometry.sectorBytes(), 4096);
        long place = geometry.backupByte();
        if (boot.backup() || changed.start() >= site.firstByte() + length || changed.end() <= site.firstByte()
                || place > image.bytes() - length || place % image.sectorSize() != 0) {
            return List.of();
        }
        Window now = image.window(site.firstByte(), length);
        if (!now.isRead(0, length)) {
            return List.of();
        }
        RepairTexts texts = new RepairTexts(NtfsRules.class, locale);
        return new SectorEdit(image, place, length).put(0, now.raw(0, length), texts.of("why.copy-follows")).changes("");
    }

    @Override
    public OptionalLong statedFirst() {
        Window window = site.image().window(boot.byteFound(), BootSector.LENGTH);
        if (boot.fromRecords() || !window.isRead(0, BootSector.LENGTH)) {
            return OptionalLong.empty();
        }
        return OptionalLong.of(window.u32le(BootSector.HIDDEN_SECTORS) * geometry.sectorBytes() / site.image().sectorSize());
    }

    @Override
    public Translation translate(int sectorSize, Locale locale) {
        return new BootTranslation(site, boot, new RepairTexts(NtfsRules.class, locale)).to(sectorSize);
    }
}
