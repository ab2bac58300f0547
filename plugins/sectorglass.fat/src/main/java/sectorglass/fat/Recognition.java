package sectorglass.fat;

import java.util.Optional;
import java.util.Set;

import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/**
 * Finds a FAT volume at a site. Neither the formatter's name nor the type text decides anything (Microsoft FAT specification, "FAT
 * Type Determination"); what counts is that the fields locate a FAT whose first entry repeats the media byte.
 */
final class Recognition {

    /** Sector of the backup boot sector that the specification recommends. */
    static final int BACKUP_SECTOR = 6;
    private static final int[] SECTOR_SIZES = {512, 1024, 2048, 4096};
    /** Of nine fields, how many must be plausible before a damaged boot sector is still taken for one. */
    private static final int RESEMBLES = 7;

    /** Confidence where other bytes stand over the boot sector: what is left may be of a former format, so that all others come first. */
    private static final int OVERWRITTEN = 25;
    /** Types of partitions that FAT volumes stand in: MBR, then GPT basic data, EFI system. */
    private static final Set<String> TYPES = Set.of("01", "04", "06", "07", "0b", "0c", "0e", "11", "14", "16", "1b", "1c", "1e", "ef",
            "ebd0a0a2-b9e5-4433-87c0-68b6b72699c7", "c12a7328-f81f-11d2-ba4b-00a0c93ec93b");

    private Recognition() {
    }

    static Optional<Found> at(VolumeSite site) {
        BootSector main = new BootSector(site.window(0, BootSector.SIZE));
        boolean read = main.window().isRead(0, BootSector.SIZE);
        if (read && main.namesAnother()) {
            return Optional.empty();
        }
        Geometry geometry = read ? Geometry.of(main) : null;
        int score = geometry == null ? 0 : score(site, main, geometry);
        boolean room = score >= 50 && geometry.tableBytes() <= geometry.fatBytes();
        if (score >= 50 && (room || geometry.bytes() > site.bytes())) {
            return Optional.of(new Found(Found.Source.MAIN, main, main, 0, geometry, Math.min(score, 95),
                    "the boot sector locates " + geometry.fats() + " FATs and " + geometry.clusters() + " clusters"));
        }
        Optional<Found> backup = backup(site, main, read);
        if (backup.isPresent()) {
            return backup;
        }
        boolean blank = read && blank(main.window());
        boolean like = read && resembles(main);
        boolean strict = read && !blank;
        if (like || !strict || typeAllows(site.type())) {
            Geometry guessed = LayoutGuess.at(site, strict && !like).or(() -> LayoutGuess32.at(site, strict)).orElse(null);
            if (guessed != null) {
                return Optional.of(new Found(Found.Source.GUESS, main, null, 0, guessed, !read ? 40 : strict && !like ? OVERWRITTEN : 35,
                        "layout guessed from " + guessed.fats() + " equal FATs and the directory after them"));
            }
        }
        if (like || read && score >= 50) {
            return Optional.of(new Found(Found.Source.MAIN, main, main, 0, geometry, 30, "resembles a damaged FAT boot sector"));
        }
        return Optional.empty();
    }

    private static boolean typeAllows(String type) {
        return type == null || TYPES.contains(type);
    }

    private static Optional<Found> backup(VolumeSite site, BootSector main, boolean mainRead) {
        for (int size : SECTOR_SIZES) {
            long at = (long) BACKUP_SECTOR * size;
            if (!site.has(at, BootSector.SIZE)) {
                continue;
            }
            BootSector copy = new BootSector(site.window(at, BootSector.SIZE));
            Geometry geometry = copy.namesAnother() ? null : Geometry.of(copy);
            if (geometry != null && geometry.sectorBytes() == size && copy.form32() && copy.backupSector() == BACKUP_SECTOR
                    && score(site, copy, geometry) >= 60) {
                return Optional.of(new Found(Found.Source.BACKUP, main, copy, at, geometry, mainRead ? resembles(main) ? 60 : 40 : 75,
                        "the backup boot sector at sector 6 locates " + geometry.clusters() + " clusters; the boot sector "
                        + (mainRead ? "is damaged" : "was not read")));
            }
        }
        return Optional.empty();
    }

    /** How much speaks for a boot sector that locates something; below 50 is not enough. */
    static int score(VolumeSite site, BootSector boot, Geometry geometry) {
        int score = 20;
        score += legalMedia(boot.media()) ? 15 : 0;
        score += boot.signed() ? 15 : 0;
        score += boot.jumps() ? 10 : 0;
        score += geometry.tableBytes() <= geometry.fatBytes() ? 10 : -20;
        score += (boot.total16() == 0) != (boot.total32() == 0) || boot.total16() == boot.total32() ? 5 : 0;
        score += geometry.bytes() <= site.bytes() ? 5 : 0;
        for (int copy = 0; copy < Math.min(geometry.fats(), 2); copy++) {
            Window head = site.window(geometry.fatByte(copy), 4);
            if (head.isRead(0, 4)) {
                score += head.u8(0) == boot.media() && head.u8(1) == 0xFF ? 15 : -10;
            }
        }
        return score;
    }

    /** Whether most fields could be those of a FAT boot sector, and its form is one: enough to judge it field by field. */
    static boolean resembles(BootSector boot) {
        if (!boot.signed() && !boot.jumps() || blank(boot.window().sub(BootSector.BYTES_PER_SECTOR, 25))) {
            return false;
        }
        int plausible = 0;
        plausible += Geometry.legalSectorBytes(boot.bytesPerSector()) ? 1 : 0;
        plausible += Integer.bitCount(boot.sectorsPerCluster()) == 1 ? 1 : 0;
        plausible += boot.reserved() > 0 && boot.reserved() <= 8192 ? 1 : 0;
        plausible += boot.fats() == 1 || boot.fats() == 2 ? 1 : 0;
        plausible += legalMedia(boot.media()) ? 1 : 0;
        plausible += boot.fatSize() > 0 && boot.fatSize() < 1 << 22 ? 1 : 0;
        plausible += boot.totalSectors() > 0 && ((boot.total16() == 0) != (boot.total32() == 0)) ? 1 : 0;
        plausible += boot.window().u16le(24) <= 255 && boot.window().u16le(26) <= 256 ? 1 : 0;
        int sig = boot.window().u8(boot.bootSigAt());
        plausible += sig == 0x29 || sig == 0x28 ? 1 : 0;
        return plausible >= RESEMBLES;
    }

    /** F0 and F8 to FF (Microsoft FAT specification, BPB_Media; Linux fat_valid_media takes the same). */
    static boolean legalMedia(int media) {
        return media == 0xF0 || media >= 0xF8;
    }

    private static boolean blank(Window window) {
        for (byte b : window.raw(0, window.length())) {
            if (b != 0) {
                return false;
            }
        }
        return true;
    }
}
