package sectorglass.exfat;

import java.util.List;

import sectorglass.disk.VolumeSite;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;

/**
 * A boot region of twelve sectors: boot sector, eight extended boot sectors, OEM parameters, reserved, checksum. Source: Microsoft
 * exFAT specification, sections 3.1 to 3.4.
 *
 * @param first sector of the region in the volume: 0 main, 12 backup
 * @param sectorBytes 512 to 4096
 * @param window all twelve sectors
 */
record BootRegion(int first, int sectorBytes, Window window) {

    static final int SECTORS = 12;
    static final int CHECKED = 11;
    static final int MAIN = 0;
    static final int BACKUP = 12;

    static BootRegion of(VolumeSite site, int first, int sectorBytes) {
        return new BootRegion(first, sectorBytes, site.window((long) first * sectorBytes, SECTORS * sectorBytes));
    }

    /** Whether a byte of the region is left out of the checksum: VolumeFlags and PercentInUse change while the volume is used. */
    static boolean skipped(int at) {
        return at == 106 || at == 107 || at == 112;
    }

    /** One step of the 32-bit checksum: rotate right, add. */
    static int step(int sum, int value) {
        return (sum >>> 1 | sum << 31) + value;
    }

    /** The checksum of the eleven sectors; throws where one was not read. */
    int checksum() {
        return checksum(window.bytes(0, CHECKED * sectorBytes));
    }

    private static int checksum(byte[] bytes) {
        int sum = 0;
        for (int i = 0; i < bytes.length; i++) {
            if (!skipped(i)) {
                sum = step(sum, bytes[i] & 0xFF);
            }
        }
        return sum;
    }

    /** The region with sectors that were not read taken from the other region, as far as that holds them. */
    BootRegion filledFrom(BootRegion other) {
        Window[] parts = new Window[SECTORS];
        for (int i = 0; i < SECTORS; i++) {
            boolean own = window.isRead(i * sectorBytes, sectorBytes);
            parts[i] = (own ? window : other.window).sub(i * sectorBytes, sectorBytes);
        }
        return new BootRegion(first, sectorBytes, Window.joined(List.of(parts)));
    }

    /** Sectors of the eleven that were not read. */
    SectorRanges missing() {
        return window.missing(0, CHECKED * sectorBytes);
    }

    BootSector boot() {
        return new BootSector(window.sub(0, BootSector.SIZE));
    }

    /** Whether every repeat of the stored checksum is the computed one; false where something was not read. */
    boolean sound() {
        if (!window.isRead(0, window.length())) {
            return false;
        }
        int sum = checksum();
        for (int i = CHECKED * sectorBytes; i < window.length(); i += 4) {
            if ((int) window.u32le(i) != sum) {
                return false;
            }
        }
        return true;
    }
}
