package sectorglass.fat;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.disk.Finder;
import sectorglass.disk.Sighting;
import sectorglass.disk.SightingBuilder;
import sectorglass.disk.Signature;
import sectorglass.image.SectorImage;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/**
 * Finds boot sectors, first or backup, information sectors and file allocation tables. A boot sector counts only if its fields locate
 * something (Microsoft FAT specification, "Boot Sector and BPB"); what stands there tells which copy it is.
 */
@Component(service = Finder.class)
@ServiceProvider(value = Finder.class, resolution = Resolution.OPTIONAL)
public final class FatFinder implements Finder {
    private static final String BOOT = "FAT boot sector";
    private static final String INFO = "FAT32 information sector";
    private static final long SECTOR_OF_INFO = 1;

    @Override
    public List<String> kinds() {
        return List.of("fat12", "fat16", "fat32");
    }

    @Override
    public List<Signature> signatures() {
        return List.of(new Signature(BOOT, BootSector.SIGNATURE, new byte[] {0x55, (byte) 0xAA}, -1),
                new Signature(INFO, 0, "RRaA".getBytes(StandardCharsets.US_ASCII), -1),
                new Signature("FAT", 0, new byte[] {(byte) 0xF8, -1, -1}, -1), new Signature("FAT", 0, new byte[] {(byte) 0xF0, -1, -1}, -1));
    }

    @Override
    public Optional<Sighting> look(SectorImage image, long firstByte, Signature signature) {
        try {
            return switch (signature.structure()) {
                case BOOT -> boot(image, firstByte);
                case INFO -> information(image, firstByte);
                default -> TablePairs.table(image, firstByte);
            };
        } catch (UnreadException e) {
            return Optional.empty();
        }
    }

    @Override
    public List<Sighting> relate(SectorImage image, List<Sighting> own) {
        return TablePairs.of(image, own);
    }

    private static Optional<Sighting> boot(SectorImage image, long at) {
        BootSector boot = new BootSector(image.window(at, BootSector.SIZE));
        Geometry geometry = boot.namesAnother() || !boot.jumps() || !Recognition.legalMedia(boot.media()) ? null : Geometry.of(boot);
        if (geometry == null || geometry.fats() > 4 || geometry.kind() == FatKind.FAT32 != boot.form32()) {
            return Optional.empty();
        }
        int size = geometry.sectorBytes();
        long behind = boot.form32() && boot.backupSector() > 0 && boot.backupSector() < boot.reserved() ? (long) boot.backupSector() * size : -1;
        boolean room = geometry.tableBytes() <= geometry.fatBytes();
        Boolean tableFirst = table(image, at + geometry.fatByte(0), boot.media());
        Boolean tableSecond = behind < 0 || at < behind ? Boolean.FALSE : table(image, at - behind + geometry.fatByte(0), boot.media());
        boolean copyAhead = behind > 0 && same(image, boot, at + behind);
        boolean copyBehind = behind > 0 && at >= behind && same(image, boot, at - behind);
        int lead = Boolean.compare(Boolean.TRUE.equals(tableFirst), Boolean.TRUE.equals(tableSecond));
        lead = lead != 0 ? lead : Boolean.compare(copyAhead, copyBehind);
        lead = lead != 0 || behind < 0 ? lead == 0 ? 1 : lead : 0;
        long start = lead < 0 ? at - behind : at;
        Boolean table = lead < 0 ? tableSecond : tableFirst;
        if (!room && !Boolean.TRUE.equals(table)) {
            return Optional.empty();
        }
        boolean hidden = boot.hidden() > 0 && boot.hidden() * size == start;
        SightingBuilder sighting = new SightingBuilder(geometry.kind().word(), "boot-sector", at, BootSector.SIZE)
                .format(boot.form32() ? "fat32_boot_sector" : "fat_boot_sector", Map.of())
                .copy(lead > 0 ? Sighting.Copy.PRIMARY : lead < 0 ? Sighting.Copy.BACKUP : Sighting.Copy.UNDECIDED)
                .fact("bytesPerSector", (long) size).fact("clusterBytes", (long) geometry.clusterBytes()).fact("reservedSectors", (long) boot.reserved())
                .fact("fats", (long) geometry.fats()).fact("fatSectors", geometry.fatSectors()).fact("totalSectors", geometry.totalSectors())
                .fact("hiddenSectors", boot.hidden()).fact("label", boot.label()).fact("fatByte", start + geometry.fatByte(0)).identity(boot.serial())
                .because(room, Sighting.Reason.FIELDS_AGREE).because(!room, Sighting.Reason.FIELDS_ILLEGAL)
                .because(Boolean.TRUE.equals(table), Sighting.Reason.TARGET_FOUND).because(Boolean.FALSE.equals(table), Sighting.Reason.TARGET_MISSING)
                .because(table == null, Sighting.Reason.TARGET_UNREAD).because(lead < 0 ? copyBehind : copyAhead, Sighting.Reason.COPY_EQUAL)
                .because(hidden, Sighting.Reason.KNOWS_ITS_PLACE);
        int weight = Boolean.TRUE.equals(table) ? 3 : lead != 0 ? 2 : 1;
        if (lead >= 0) {
            sighting.vote("own-place", at, geometry.bytes(), weight);
        }
        if (lead <= 0 && at >= behind) {
            sighting.vote("backup-place", at - behind, geometry.bytes(), weight);
        }
        return Optional.of(sighting.build());
    }

    /** Whether a FAT begins there: the media byte, then ones; null where it was not read. */
    private static Boolean table(SectorImage image, long at, int media) {
        if (at < 0 || at > image.bytes() - 4) {
            return null;
        }
        Window head = image.window(at, 4);
        return head.isRead(0, 4) ? head.u8(0) == media && head.u8(1) == 0xFF && head.u8(2) == 0xFF : null;
    }

    private static boolean same(SectorImage image, BootSector boot, long at) {
        if (at > image.bytes() - BootSector.SIZE) {
            return false;
        }
        Window other = image.window(at, BootSector.SIZE);
        return other.isRead(0, BootSector.SIZE)
                && java.util.Arrays.equals(other.raw(0, BootSector.SIZE), boot.window().raw(0, BootSector.SIZE));
    }

    /** FSInfo stands in the sector after the boot sector, usually, and after its backup (Microsoft FAT specification, "FSInfo"). */
    private static Optional<Sighting> information(SectorImage image, long at) {
        Window info = image.window(at, BootSector.SIZE);
        if (!info.matches(484, "rrAa")) {
            return Optional.empty();
        }
        long size = image.sectorSize();
        SightingBuilder sighting = new SightingBuilder("fat32", "information-sector", at, BootSector.SIZE).format("fat32_fs_info", Map.of())
                .fact("freeClusters", info.u32le(488)).fact("nextFree", info.u32le(492))
                .because(info.matches(508, 0, 0, 0x55, 0xAA), Sighting.Reason.FIELDS_AGREE).because(true, Sighting.Reason.LONG_SIGNATURE);
        if (at >= SECTOR_OF_INFO * size) {
            sighting.vote("information-place", at - SECTOR_OF_INFO * size, Sighting.UNKNOWN, 1);
        }
        long backup = (Recognition.BACKUP_SECTOR + SECTOR_OF_INFO) * size;
        if (at >= backup) {
            sighting.vote("information-backup-place", at - backup, Sighting.UNKNOWN, 1);
        }
        return Optional.of(sighting.build());
    }
}
