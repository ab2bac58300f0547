package sectorglass.exfat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;

import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/**
 * One sound boot region from two damaged ones: of each sector the main region's, the backup's, or what it holds when nothing was put there;
 * of the boot sector also both with the fields that other structures of the volume determine. A combination counts only if its checksum is the
 * one that a checksum sector still holds. Source: Microsoft exFAT specification, sections 3.1 to 3.4.
 */
final class JoinedRegion {
    private static final int EXTENDED = 8;
    /** Bytes summed up before the search for a combination is given up. */
    private static final long MOST_SUMMED = 256L << 20;

    /** Where a sector comes from. */
    enum From {
        MAIN, BACKUP, MAIN_WITH_FIELDS, BACKUP_WITH_FIELDS, EMPTY;

        /** The end of its key in the texts. */
        String key() {
            return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
        }
    }

    /**
     * A sector of the joined region.
     *
     * @param from where it comes from
     * @param bytes a whole sector
     */
    record Part(From from, byte[] bytes) { }

    private final VolumeSite site;
    private final int size;
    private final UnaryOperator<byte[]> fields;
    private final List<List<Part>> choices = new ArrayList<>();
    private final Part[] chosen = new Part[BootRegion.CHECKED];
    private Set<Integer> sums;
    private long summed;

    private JoinedRegion(VolumeSite site, int size, UnaryOperator<byte[]> fields) {
        this.site = site;
        this.size = size;
        this.fields = fields;
    }

    /**
     * The eleven sectors before the checksum, if a combination is proven by a stored one.
     *
     * @param fields puts the determined fields into a boot sector; null where nothing determines any
     */
    static Optional<List<Part>> of(VolumeSite site, int sectorBytes, UnaryOperator<byte[]> fields) {
        return new JoinedRegion(site, sectorBytes, fields).find();
    }

    private Optional<List<Part>> find() {
        BootRegion main = BootRegion.of(site, BootRegion.MAIN, size);
        BootRegion backup = BootRegion.of(site, BootRegion.BACKUP, size);
        sums = new LinkedHashSet<>();
        for (BootRegion region : new BootRegion[] {main, backup}) {
            stored(region.window()).ifPresent(sums::add);
        }
        for (int sector = 0; sector < BootRegion.CHECKED; sector++) {
            choices.add(parts(sector, main.window(), backup.window()));
        }
        return !sums.isEmpty() && join(0, 0) ? Optional.of(List.of(chosen)) : Optional.empty();
    }

    /** The checksum that most of the repeats in a checksum sector hold; the one of a blank region does not count. */
    private Optional<Integer> stored(Window region) {
        int count = 0;
        int value = 0;
        int same = 0;
        for (int at = BootRegion.CHECKED * size; at < region.length(); at += 4) {
            if (region.isRead(at, 4)) {
                int here = (int) region.u32le(at);
                // the value that more than half of all hold is the one left by this vote (Boyer and Moore)
                value = count == 0 ? here : value;
                count += here == value ? 1 : -1;
            }
        }
        for (int at = BootRegion.CHECKED * size; at < region.length(); at += 4) {
            same += region.isRead(at, 4) && (int) region.u32le(at) == value ? 1 : 0;
        }
        return value != 0 && same > size / 8 ? Optional.of(value) : Optional.empty();
    }

    private List<Part> parts(int sector, Window main, Window backup) {
        List<Part> all = new ArrayList<>();
        byte[] own = main.isRead(sector * size, size) ? main.bytes(sector * size, size) : null;
        byte[] copy = backup.isRead(sector * size, size) ? backup.bytes(sector * size, size) : null;
        add(all, From.MAIN, own);
        add(all, From.BACKUP, copy);
        if (sector == 0 && fields != null) {
            add(all, From.MAIN_WITH_FIELDS, own == null ? null : fields.apply(own.clone()));
            add(all, From.BACKUP_WITH_FIELDS, copy == null ? null : fields.apply(copy.clone()));
        } else if (sector > 0) {
            add(all, From.EMPTY, empty(sector, size));
        }
        return all;
    }

    /** What an unused sector of a region holds: zeros, and in an extended boot sector its signature. */
    static byte[] empty(int sector, int size) {
        byte[] bytes = new byte[size];
        if (sector >= 1 && sector <= EXTENDED) {
            bytes[size - 2] = 0x55;
            bytes[size - 1] = (byte) 0xAA;
        }
        return bytes;
    }

    private static void add(List<Part> all, From from, byte[] bytes) {
        if (bytes != null && all.stream().noneMatch(known -> Arrays.equals(known.bytes(), bytes))) {
            all.add(new Part(from, bytes));
        }
    }

    private boolean join(int sector, int sum) {
        if (sector == BootRegion.CHECKED) {
            return sums.contains(sum);
        }
        for (Part part : choices.get(sector)) {
            if (sector == 0 && !boots(part.bytes())) {
                continue;
            }
            summed += size;
            if (summed > MOST_SUMMED) {
                return false;
            }
            int so = sum;
            for (int i = 0; i < size; i++) {
                so = sector == 0 && BootRegion.skipped(i) ? so : BootRegion.step(so, part.bytes()[i] & 0xFF);
            }
            chosen[sector] = part;
            if (join(sector + 1, so)) {
                return true;
            }
        }
        return false;
    }

    private boolean boots(byte[] sector) {
        BootSector boot = new BootSector(Window.of(sector, 0, 512));
        Geometry geometry = boot.named() && boot.signed() ? Geometry.of(boot) : null;
        return geometry != null && geometry.sectorBytes() == size && Recognition.plausible(boot, geometry);
    }
}
