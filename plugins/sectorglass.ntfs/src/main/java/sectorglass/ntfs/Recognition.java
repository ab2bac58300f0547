package sectorglass.ntfs;

import java.util.LinkedHashSet;
import java.util.Optional;
import java.util.Set;

import sectorglass.disk.Claim;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/**
 * Looks for the boot sector at the start of a site; where it was not read or is destroyed, for its copy: in the last sector, one before
 * or after, and in the middle (before version 4 the copy lay there, NTFS-3G bootsect.c). A copy counts only if every field is legal,
 * its number of sectors is its own place, and a file record stands where it points, or was not read. Where no copy counts, file records
 * are asked ({@link LostBoot}).
 */
final class Recognition {
    /** Confidence where other bytes stand over the boot sector, and both table and mirror are left: little, a later format may stand there. */
    private static final int OVERWRITTEN = 28;
    /** The same where only one of them is left. */
    private static final int LEFT = 24;

    private final VolumeSite site;

    Recognition(VolumeSite site) {
        this.site = site;
    }

    Optional<Claim> claim() {
        Window first = site.window(0, BootSector.LENGTH);
        boolean read = first.isRead(0, BootSector.LENGTH);
        if (read) {
            Geometry geometry = BootSector.geometry(first, site.firstByte(), site.bytes());
            if (geometry != null) {
                boolean sound = BootSector.sound(first, geometry);
                return Optional.of(claim(sound && first.matches(BootSector.END_MARKER, 0x55, 0xAA) ? 95 : sound ? 85 : 60,
                        new BootFound(geometry, site.firstByte(), false),
                        sound ? "boot sector with legal measures" : "boot sector with the NTFS id, some fields illegal"));
            }
        }
        boolean blank = !read || first.filled(0, BootSector.LENGTH, first.u8(0));
        Optional<BootFound> copy = backup(read);
        if (copy.isEmpty()) {
            LostBoot lost = new LostBoot(site, blank);
            Optional<BootFound> found = lost.find();
            return found.isEmpty() || !blank && !lost.sure() ? Optional.empty()
                    : Optional.of(claim(blank ? 40 : lost.paired() ? OVERWRITTEN : LEFT, found.get(),
                            "file records stand where formatters put them; no boot sector can be used"));
        }
        return copy.map(found -> claim(!read ? 70 : blank ? 60 : 30, found,
                read ? "only the copy of the boot sector can be used" : "the first sector was not read; its copy can be used"));
    }

    private Claim claim(int confidence, BootFound found, String reason) {
        return new Claim("ntfs", confidence, site, reason, found);
    }

    private Optional<BootFound> backup(boolean firstRead) {
        int size = site.image().sectorSize();
        long end = site.bytes();
        Set<Long> places = new LinkedHashSet<>();
        places.add(end - size);
        places.add(end - 2L * size);
        places.add(end);
        places.add(end - 4096);
        places.add(end / size / 2 * size);
        for (long place : places) {
            if (place <= 0 || place + BootSector.LENGTH > site.image().bytes() - site.firstByte()) {
                continue;
            }
            Window window = site.window(place, BootSector.LENGTH);
            if (!window.isRead(0, BootSector.LENGTH)) {
                continue;
            }
            Geometry geometry = BootSector.geometry(window, site.firstByte(), end);
            if (geometry != null && BootSector.sound(window, geometry) && fits(window, place, geometry)
                    && recordAt(geometry.mftLcn(), geometry) | recordAt(geometry.mirrorLcn(), geometry)) {
                return Optional.of(new BootFound(geometry, site.firstByte() + place, true));
            }
        }
        return Optional.empty();
    }

    private static boolean fits(Window window, long place, Geometry geometry) {
        long bytes = window.u64le(BootSector.SECTORS) * geometry.sectorBytes();
        return bytes == place || bytes / 2 / geometry.sectorBytes() == place / geometry.sectorBytes();
    }

    /** Whether a file record stands at the cluster, or nobody knows because it was not read. */
    private boolean recordAt(long lcn, Geometry geometry) {
        Window head = site.image().window(geometry.clusterByte(lcn), 4);
        return !head.isRead(0, 4) || head.matches(0, "FILE");
    }
}
