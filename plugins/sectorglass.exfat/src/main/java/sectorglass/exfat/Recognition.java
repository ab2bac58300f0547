package sectorglass.exfat;

import java.util.Optional;
import java.util.Set;

import sectorglass.disk.VolumeSite;

/**
 * Finds an exFAT volume at a site: by its main boot region, else by the backup at sector 12, whose checksum must hold as far as it
 * was read, else by FAT, bitmap, up-case table and root directory. Source: Microsoft exFAT specification, sections 3.1 and 3.4.
 */
final class Recognition {

    private static final int[] SECTOR_SIZES = {512, 1024, 2048, 4096};

    /** Confidence where other bytes stand over the boot sector: what is left may be of a former format, so that most others come first. */
    private static final int OVERWRITTEN = 27;
    /** Types of partitions that exFAT volumes stand in: MBR, GPT basic data. */
    private static final Set<String> TYPES = Set.of("07", "0b", "0c", "17", "ebd0a0a2-b9e5-4433-87c0-68b6b72699c7");

    private Recognition() {
    }

    private static boolean typeAllows(String type) {
        return type == null || TYPES.contains(type);
    }

    static Optional<Found> at(VolumeSite site) {
        BootSector main = new BootSector(site.window(0, BootSector.SIZE));
        boolean read = main.window().isRead(0, BootSector.SIZE);
        Geometry geometry = read && main.named() ? Geometry.of(main) : null;
        if (geometry != null && BootRegion.of(site, BootRegion.MAIN, geometry.sectorBytes()).sound()) {
            return Optional.of(new Found(Found.Source.MAIN, main, main, geometry, 97, "the main boot region passes its checksum"));
        }
        Optional<Found> backup = backup(site, main, read);
        boolean plausible = geometry != null && plausible(main, geometry);
        if (backup.isPresent() && !(plausible && backup.get().confidence() < 90)) {
            return backup;
        }
        if (geometry != null) {
            return Optional.of(new Found(Found.Source.MAIN, main, main, geometry, plausible ? 80 : 50,
                    "the boot sector is named EXFAT" + (plausible ? " and its fields agree" : "")));
        }
        boolean blank = !read || main.window().filled(0, BootSector.SIZE, main.window().u8(0));
        if (blank || main.named() || typeAllows(site.type())) {
            Optional<Geometry> built = LostBoot.at(site, blank || main.named() || site.type() != null || site.range().first() == 0);
            if (built.isPresent()) {
                return built.map(layout -> new Found(Found.Source.STRUCTURES, main, main, layout, blank || main.named() ? 55 : OVERWRITTEN,
                        "FAT, bitmap, up-case table and root directory agree; no boot region can be used"));
            }
        }
        return read && main.named() ? Optional.of(new Found(Found.Source.MAIN, main, main, null, 40,
                "the boot sector is named EXFAT, but its fields locate nothing")) : Optional.empty();
    }

    private static Optional<Found> backup(VolumeSite site, BootSector main, boolean mainRead) {
        for (int size : SECTOR_SIZES) {
            if (!site.has((long) BootRegion.BACKUP * size, BootSector.SIZE)) {
                continue;
            }
            BootRegion region = BootRegion.of(site, BootRegion.BACKUP, size);
            BootSector boot = region.boot();
            Geometry geometry = boot.named() ? Geometry.of(boot) : null;
            if (geometry == null || geometry.sectorBytes() != size) {
                continue;
            }
            boolean sound = region.sound();
            boolean undecided = !region.window().isRead(0, region.window().length()) && plausible(boot, geometry);
            if (sound || undecided) {
                return Optional.of(new Found(Found.Source.BACKUP, main, boot, geometry, sound ? 92 : 70, "the backup boot region at sector 12 "
                        + (sound ? "passes its checksum" : "has plausible fields") + "; the main one "
                        + (mainRead ? "is damaged" : "was not read")));
            }
        }
        return Optional.empty();
    }

    /** Whether the regions follow each other and the root directory exists. */
    static boolean plausible(BootSector boot, Geometry geometry) {
        long heap = geometry.fatOffset() + geometry.fatLength() * geometry.fats();
        return boot.fatOffset() >= 24 && geometry.heapOffset() >= heap && geometry.exists(geometry.rootCluster())
                && geometry.fatLength() * geometry.sectorBytes() >= (geometry.clusters() + 2) * 4
                && geometry.heapOffset() + geometry.clusters() * (geometry.clusterBytes() / geometry.sectorBytes())
                <= geometry.volumeLength();
    }
}
