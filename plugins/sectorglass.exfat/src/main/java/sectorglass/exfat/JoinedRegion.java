package sectorglass.exfat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;

import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/**
 * One sound boot region from two damaged ones: of each sector the main region's, the backup's, or what it holds when nothing was put there;
 * of the boot sector also both with the fields that other structures of the volume determine. A combination counts only if its checksum is the
 * one that a checksum sector still holds, or if no checksum is left and both regions hold the same. Source: Microsoft exFAT specification, sections 3.1 to 3.4.
 */
final class JoinedRegion {
    private static final int EXTENDED = 8;
    private static final int OEM = 9;
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
    private final Function<byte[], List<byte[]>> fields;
    private final List<List<Part>> choices = new ArrayList<>();
    private final Part[] chosen = new Part[BootRegion.CHECKED];
    private Set<Integer> sums;
    private long summed;

    private JoinedRegion(VolumeSite site, int size, Function<byte[], List<byte[]>> fields) {
        this.site = site;
        this.size = size;
        this.fields = fields;
    }

    /**
     * The eleven sectors before the checksum, if a combination is proven by a stored one or both regions hold the same.
     *
     * @param fields gives a boot sector with determined fields in place of damaged ones, in all ways that are worth trying
     */
    static Optional<List<Part>> of(VolumeSite site, int sectorBytes, Function<byte[], List<byte[]>> fields) {
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
        if (sums.isEmpty() && equal(main.window(), backup.window()) && boots(main.window().raw(0, size))) {
            return Optional.of(choices.stream().map(parts -> parts.get(0)).toList());
        }
        return !sums.isEmpty() && join(0, 0) ? Optional.of(List.of(chosen)) : Optional.empty();
    }

    /** Whether both regions were read and hold the same but for what only the main one keeps up to date. */
    private boolean equal(Window main, Window backup) {
        int length = BootRegion.CHECKED * size;
        if (!main.isRead(0, length) || !backup.isRead(0, length)) {
            return false;
        }
        byte[] one = main.bytes(0, length);
        byte[] two = backup.bytes(0, length);
        for (int i = 0; i < length; i++) {
            if (!BootRegion.skipped(i) && one[i] != two[i]) {
                return false;
            }
        }
        return true;
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
        boolean second = own != null && Arrays.equals(own, new byte[size]);
        // zeros may sum up to the same as what stood there: what holds something comes first
        add(all, second ? From.BACKUP : From.MAIN, second ? copy : own);
        add(all, second ? From.MAIN : From.BACKUP, second ? own : copy);
        if (sector > 0) {
            add(all, From.EMPTY, empty(sector, size));
            if (sector == OEM) {
                byte[] filled = new byte[size];
                Arrays.fill(filled, (byte) 0xFF); // what mkfs.exfat leaves there
                add(all, From.EMPTY, filled);
            }
            return all;
        }
        if (own != null) {
            fields.apply(own).forEach(sectorBytes -> add(all, From.MAIN_WITH_FIELDS, sectorBytes));
        }
        if (copy != null && !Arrays.equals(own, copy)) {
            fields.apply(copy).forEach(sectorBytes -> add(all, From.BACKUP_WITH_FIELDS, sectorBytes));
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
        BootSector boot = new BootSector(Window.ofRead(sector, 0, 512));
        Geometry geometry = boot.named() && boot.signed() ? Geometry.of(boot) : null;
        return geometry != null && geometry.sectorBytes() == size && Recognition.plausible(boot, geometry);
    }
}
