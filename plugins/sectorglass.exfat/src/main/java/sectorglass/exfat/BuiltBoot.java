package sectorglass.exfat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import sectorglass.disk.Repair;
import sectorglass.disk.RepairTexts;
import sectorglass.disk.SectorEdit;
import sectorglass.disk.Translation;
import sectorglass.disk.VolumeSite;

/** Both boot regions made from a layout. Source: Microsoft exFAT specification, sections 3.1 to 3.4. */
final class BuiltBoot {
    private static final int EXTENDED = 8;
    private static final int BOOT_CODE = 120;

    private final VolumeSite site;
    private final Geometry geometry;
    private final RepairTexts texts;

    BuiltBoot(VolumeSite site, Geometry geometry, RepairTexts texts) {
        this.site = site;
        this.geometry = geometry;
        this.texts = texts;
    }

    Repair repair() {
        List<Repair.Change> changes = new ArrayList<>();
        List<Repair.Kept> kept = new ArrayList<>();
        for (int first : new int[] {BootRegion.MAIN, BootRegion.BACKUP}) {
            SectorEdit edit = new SectorEdit(site.image(), site.firstByte() + (long) first * geometry.sectorBytes(),
                    BootRegion.SECTORS * geometry.sectorBytes());
            fields(edit);
            edit.keep(BootSector.SERIAL, 4, "VolumeSerialNumber", texts.of("kept.serial"));
            edit.keep(BootSector.PARTITION_OFFSET, 8, "PartitionOffset", texts.of("kept.offset"));
            edit.keep(BOOT_CODE, 390, "BootCode", texts.of("kept.boot-code"));
            kept.addAll(edit.kept());
            seal(edit, geometry.sectorBytes());
            changes.addAll(edit.changes(texts.of("why.unread")));
        }
        return new Repair("exfat.boot-from-structures", texts.of("exfat.boot-from-structures.title", site.range().first()),
                texts.of("exfat.boot-from-structures.reason"), 65, false, changes, List.of(texts.of("against.fat-length")), kept);
    }

    private void fields(SectorEdit edit) {
        int size = geometry.sectorBytes();
        String fixed = texts.of("why.fixed");
        edit.put(BootSector.JUMP, fixed, 0xEB, 0x76, 0x90);
        edit.put(BootSector.NAME, "EXFAT   ".getBytes(java.nio.charset.StandardCharsets.US_ASCII), fixed);
        edit.zero(BootSector.ZERO, 53, fixed);
        edit.le(BootSector.VOLUME_LENGTH, 8, geometry.volumeLength(), texts.of("why.length"));
        edit.le(BootSector.FAT_OFFSET, 4, geometry.fatOffset(), texts.of("why.fat"));
        edit.le(BootSector.FAT_LENGTH, 4, geometry.fatLength(), texts.of("why.fat-length"));
        edit.le(BootSector.HEAP_OFFSET, 4, geometry.heapOffset(), texts.of("why.heap"));
        edit.le(BootSector.CLUSTER_COUNT, 4, geometry.clusters(), texts.of("why.count"));
        edit.le(BootSector.ROOT_CLUSTER, 4, geometry.rootCluster(), texts.of("why.root"));
        edit.put(BootSector.REVISION, fixed, 0x00, 0x01);
        edit.le(BootSector.FLAGS, 2, 0, texts.of("why.flags"));
        edit.le(BootSector.SECTOR_SHIFT, 1, Integer.numberOfTrailingZeros(size), texts.of("why.shift"));
        edit.le(BootSector.CLUSTER_SHIFT, 1, Integer.numberOfTrailingZeros(geometry.clusterBytes() / size), texts.of("why.shift"));
        edit.put(BootSector.FATS, texts.of("why.fats"), 1, 0x80, 0xFF);
        edit.zero(BootSector.RESERVED, 7, fixed);
        edit.put(BootSector.SIGNATURE, fixed, 0x55, 0xAA);
        String extended = texts.of("why.extended");
        for (int i = 1; i <= EXTENDED; i++) {
            edit.put((i + 1) * size - 4, extended, 0, 0, 0x55, 0xAA);
        }
    }

    private void seal(SectorEdit edit, int size) {
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
