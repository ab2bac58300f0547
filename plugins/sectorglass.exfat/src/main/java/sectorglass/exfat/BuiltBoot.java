package sectorglass.exfat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

import sectorglass.disk.Repair;
import sectorglass.disk.RepairTexts;
import sectorglass.disk.SectorEdit;
import sectorglass.disk.Translation;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** Both boot regions made from a layout and from what is left of them. Source: Microsoft exFAT specification, sections 3.1 to 3.4. */
final class BuiltBoot {
    private static final int EXTENDED = 8;
    private static final int BOOT_CODE = 120;
    /** Sector of the OEM parameters, and their bytes: ten of 48. */
    private static final int OEM = 9;
    private static final int OEM_PARAMETERS = 480;
    private static final int MOST_DIFFERING = 10;

    private final VolumeSite site;
    private final Geometry geometry;
    private final RepairTexts texts;

    BuiltBoot(VolumeSite site, Geometry geometry, RepairTexts texts) {
        this.site = site;
        this.geometry = geometry;
        this.texts = texts;
    }

    /** Both regions: what structures determine, and of the rest what one of the damaged regions still holds. */
    Repair repair() {
        int size = geometry.sectorBytes();
        BootRegion main = BootRegion.of(site, BootRegion.MAIN, size);
        BootRegion backup = BootRegion.of(site, BootRegion.BACKUP, size);
        boolean fromBackup = !alike(main) && (alike(backup) || !main.window().isRead(0, size) && backup.window().isRead(0, size));
        List<Repair.Change> changes = new ArrayList<>();
        List<Repair.Kept> kept = new ArrayList<>();
        for (BootRegion region : new BootRegion[] {main, backup}) {
            SectorEdit edit = new SectorEdit(site.image(), region.window().start(), BootRegion.SECTORS * size);
            BootRegion base = fromBackup ? backup : main;
            if (base != region && base.window().isRead(0, size)) {
                edit.put(0, base.window().raw(0, size), texts.of(fromBackup ? "why.rest-backup" : "why.rest-main"));
            }
            fields().forEach(field -> edit.put(field.at(), field.bytes(), field.why()));
            for (int sector = 1; sector < BootRegion.CHECKED; sector++) {
                JoinedRegion.Part part = part(sector, main, backup);
                edit.put(sector * size, part.bytes(), texts.of("why.sector-" + part.from().key()));
            }
            edit.keep(BootSector.SERIAL, 4, "VolumeSerialNumber", texts.of("kept.serial"));
            edit.keep(BootSector.PARTITION_OFFSET, 8, "PartitionOffset", texts.of("kept.offset"));
            edit.keep(BOOT_CODE, 390, "BootCode", texts.of("kept.boot-code"));
            kept.addAll(edit.kept());
            seal(edit, size);
            changes.addAll(edit.changes(texts.of("why.unread")));
        }
        return new Repair("exfat.boot-from-structures", texts.of("exfat.boot-from-structures.title", site.range().first()),
                texts.of("exfat.boot-from-structures.reason"), 65, false, changes, List.of(texts.of("against.fat-length")), kept);
    }

    /** Both regions as the eleven sectors that a stored checksum proves, if there are any. */
    static Optional<Repair> joined(VolumeSite site, int size, BuiltBoot structures, RepairTexts texts) {
        return JoinedRegion.of(site, size, structures == null ? sector -> List.of() : structures::corrected).map(parts -> {
            List<Repair.Change> changes = new ArrayList<>();
            for (int first : new int[] {BootRegion.MAIN, BootRegion.BACKUP}) {
                SectorEdit edit = new SectorEdit(site.image(), site.firstByte() + (long) first * size, BootRegion.SECTORS * size);
                for (int sector = 0; sector < BootRegion.CHECKED; sector++) {
                    edit.put(sector * size, parts.get(sector).bytes(), texts.of("why.sector-" + parts.get(sector).from().key()));
                }
                seal(edit, size, texts);
                changes.addAll(edit.changes(texts.of("why.unread")));
            }
            return new Repair("exfat.regions-joined", texts.of("exfat.regions-joined.title", site.range().first()),
                    texts.of("exfat.regions-joined.reason", named(parts, JoinedRegion.From.MAIN, JoinedRegion.From.MAIN_WITH_FIELDS, texts),
                            named(parts, JoinedRegion.From.BACKUP, JoinedRegion.From.BACKUP_WITH_FIELDS, texts),
                            named(parts, JoinedRegion.From.EMPTY, JoinedRegion.From.EMPTY, texts)),
                    95, false, changes, List.of(texts.of("against.flags")), List.of());
        });
    }

    private static String named(List<JoinedRegion.Part> parts, JoinedRegion.From one, JoinedRegion.From other, RepairTexts texts) {
        List<String> numbers = new ArrayList<>();
        for (int i = 0; i < parts.size(); i++) {
            if (parts.get(i).from() == one || parts.get(i).from() == other) {
                numbers.add(Integer.toString(i));
            }
        }
        return numbers.isEmpty() ? texts.of("none") : String.join(", ", numbers);
    }

    /** Whether a boot sector is one that lost some bytes: its name and signature and half of the fields stand as structures say. */
    private boolean alike(BootRegion region) {
        Window window = region.window();
        if (!window.isRead(0, BootSector.SIZE) || !region.boot().signed() && !region.boot().named()) {
            return false;
        }
        byte[] now = window.raw(0, BootSector.SIZE);
        long same = fields().stream().filter(field -> Arrays.equals(field.bytes(),
                Arrays.copyOfRange(now, field.at(), field.at() + field.bytes().length))).count();
        return 2 * same > fields().size();
    }

    private boolean blank(Window window, int sector) {
        int size = geometry.sectorBytes();
        return window.isRead(sector * size, size) && window.sub(sector * size, size).filled(0, size, 0);
    }

    /** An extended boot sector, the OEM parameters or the reserved sector: of the main region, else of the backup, else as an unused one. */
    private JoinedRegion.Part part(int sector, BootRegion main, BootRegion backup) {
        int size = geometry.sectorBytes();
        for (BootRegion region : new BootRegion[] {main, backup}) {
            Window window = region.window();
            boolean read = window.isRead(sector * size, size);
            boolean stands = read && (sector <= EXTENDED ? window.matches((sector + 1) * size - 4, 0, 0, 0x55, 0xAA)
                    : sector == OEM && !blank(window, sector) && plain(window.sub(sector * size + OEM_PARAMETERS, size - OEM_PARAMETERS)));
            if (stands) {
                return new JoinedRegion.Part(region == main ? JoinedRegion.From.MAIN : JoinedRegion.From.BACKUP, window.raw(sector * size, size));
            }
        }
        return new JoinedRegion.Part(JoinedRegion.From.EMPTY, JoinedRegion.empty(sector, size));
    }

    /** Zeros, or the FF with which formatters fill the sector. */
    private static boolean plain(Window rest) {
        return rest.filled(0, rest.length(), 0) || rest.filled(0, rest.length(), 0xFF);
    }

    /** A field that structures determine. */
    private record Field(int at, byte[] bytes, String why) { }

    /**
     * Boot sectors with some of the fields that structures determine in place of those that stand: each choice of the differing ones, since
     * what stands may be legal too (a longer FAT, another drive number). Empty where more differ than can be tried.
     */
    private List<byte[]> corrected(byte[] sector) {
        List<Field> differing = fields().stream().filter(field -> !Arrays.equals(field.bytes(),
                Arrays.copyOfRange(sector, field.at(), field.at() + field.bytes().length))).toList();
        List<byte[]> all = new ArrayList<>();
        for (int choice = 1; differing.size() <= MOST_DIFFERING && choice < 1 << differing.size(); choice++) {
            byte[] bytes = sector.clone();
            for (int i = 0; i < differing.size(); i++) {
                Field field = differing.get(i);
                if ((choice >> i & 1) == 1) {
                    System.arraycopy(field.bytes(), 0, bytes, field.at(), field.bytes().length);
                }
            }
            all.add(bytes);
        }
        return all;
    }

    private List<Field> fields() {
        int size = geometry.sectorBytes();
        String fixed = texts.of("why.fixed");
        List<Field> all = new ArrayList<>();
        all.add(new Field(BootSector.JUMP, new byte[] {(byte) 0xEB, 0x76, (byte) 0x90}, fixed));
        all.add(new Field(BootSector.NAME, "EXFAT   ".getBytes(java.nio.charset.StandardCharsets.US_ASCII), fixed));
        all.add(new Field(BootSector.ZERO, new byte[53], fixed));
        all.add(le(BootSector.VOLUME_LENGTH, 8, geometry.volumeLength(), "why.length"));
        all.add(le(BootSector.FAT_OFFSET, 4, geometry.fatOffset(), "why.fat"));
        all.add(le(BootSector.FAT_LENGTH, 4, geometry.fatLength(), "why.fat-length"));
        all.add(le(BootSector.HEAP_OFFSET, 4, geometry.heapOffset(), "why.heap"));
        all.add(le(BootSector.CLUSTER_COUNT, 4, geometry.clusters(), "why.count"));
        all.add(le(BootSector.ROOT_CLUSTER, 4, geometry.rootCluster(), "why.root"));
        all.add(new Field(BootSector.REVISION, new byte[] {0, 1}, fixed));
        all.add(le(BootSector.FLAGS, 2, 0, "why.flags"));
        all.add(le(BootSector.SECTOR_SHIFT, 1, Integer.numberOfTrailingZeros(size), "why.shift"));
        all.add(le(BootSector.CLUSTER_SHIFT, 1, Integer.numberOfTrailingZeros(geometry.clusterBytes() / size), "why.shift"));
        all.add(new Field(BootSector.FATS, new byte[] {1, (byte) 0x80, (byte) 0xFF}, texts.of("why.fats")));
        all.add(new Field(BootSector.RESERVED, new byte[7], fixed));
        all.add(new Field(BootSector.SIGNATURE, new byte[] {0x55, (byte) 0xAA}, fixed));
        return all;
    }

    private Field le(int at, int width, long value, String why) {
        byte[] bytes = new byte[width];
        put(bytes, 0, width, value);
        return new Field(at, bytes, texts.of(why));
    }

    private void seal(SectorEdit edit, int size) {
        seal(edit, size, texts);
    }

    private static void seal(SectorEdit edit, int size, RepairTexts texts) {
        byte[] checked = Arrays.copyOf(edit.now().array(), BootRegion.CHECKED * size);
        int sum = 0;
        for (int i = 0; i < checked.length; i++) {
            if (!BootRegion.skipped(i)) {
                sum = BootRegion.step(sum, checked[i] & 0xFF);
            }
        }
        ExfatRepairs.fill(edit, BootRegion.CHECKED * size, size, sum, texts.of("why.checksum"));
    }

    /** Both regions for another sector size; everything else stays in its place. */
    Translation translate(BootSector boot, int size) {
        long fat = geometry.fatOffset() * geometry.sectorBytes();
        long fatBytes = geometry.fatLength() * geometry.sectorBytes();
        long heap = geometry.heapOffset() * geometry.sectorBytes();
        if (fat % size != 0 || fatBytes % size != 0 || heap % size != 0 || geometry.bytes() % size != 0 || geometry.clusterBytes() < size
                || fat < 24L * size || site.firstByte() % size != 0) {
            return Translation.refused(texts.of("translate.uneven", size));
        }
        byte[] region = new byte[BootRegion.SECTORS * size];
        System.arraycopy(boot.window().raw(0, BootSector.SIZE), 0, region, 0, BootSector.SIZE);
        put(region, BootSector.PARTITION_OFFSET, 8, boot.partitionOffset() * geometry.sectorBytes() / size);
        put(region, BootSector.VOLUME_LENGTH, 8, geometry.bytes() / size);
        put(region, BootSector.FAT_OFFSET, 4, fat / size);
        put(region, BootSector.FAT_LENGTH, 4, fatBytes / size);
        put(region, BootSector.HEAP_OFFSET, 4, heap / size);
        put(region, BootSector.SECTOR_SHIFT, 1, Integer.numberOfTrailingZeros(size));
        put(region, BootSector.CLUSTER_SHIFT, 1, Integer.numberOfTrailingZeros(geometry.clusterBytes() / size));
        for (int i = 1; i <= EXTENDED; i++) {
            region[(i + 1) * size - 2] = 0x55;
            region[(i + 1) * size - 1] = (byte) 0xAA;
        }
        int sum = 0;
        for (int i = 0; i < BootRegion.CHECKED * size; i++) {
            sum = BootRegion.skipped(i) ? sum : BootRegion.step(sum, region[i] & 0xFF);
        }
        for (int i = BootRegion.CHECKED * size; i < region.length; i += 4) {
            put(region, i, 4, sum & 0xFFFFFFFFL);
        }
        return Translation.of(List.of(new Repair.Change(site.firstByte(), region, texts.of("translate.main", size)),
                new Repair.Change(site.firstByte() + (long) BootRegion.BACKUP * size, region.clone(), texts.of("translate.backup"))),
                List.of(texts.of("translate.extended")));
    }

    private static void put(byte[] bytes, int at, int width, long value) {
        for (int i = 0; i < width; i++) {
            bytes[at + i] = (byte) (value >>> 8 * i);
        }
    }
}
