package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

import sectorglass.disk.Repair;
import sectorglass.disk.RepairTexts;
import sectorglass.disk.Translation;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** The boot sector for another sector size: counts of sectors change, clusters and records stay where and as they are. */
final class BootTranslation {
    private final VolumeSite site;
    private final BootFound boot;
    private final Geometry geometry;
    private final RepairTexts texts;

    BootTranslation(VolumeSite site, BootFound boot, RepairTexts texts) {
        this.site = site;
        this.boot = boot;
        this.geometry = boot.geometry();
        this.texts = texts;
    }

    Translation to(int size) {
        if (boot.backup()) {
            return Translation.refused(texts.of("translate.no-boot"));
        }
        if (geometry.recordBytes() < size || geometry.indexBytes() < size) {
            return Translation.refused(texts.of("translate.record", geometry.recordBytes(), size));
        }
        if (geometry.clusterBytes() % size != 0) {
            return Translation.refused(texts.of("translate.cluster", geometry.clusterBytes(), size));
        }
        int perCluster = geometry.clusterBytes() / size;
        long sectors = site.bytes() / size - 1;
        if (site.bytes() % size != 0 || site.firstByte() % size != 0 || sectors / perCluster != geometry.clusters()) {
            return Translation.refused(texts.of("translate.size", site.bytes(), size));
        }
        int length = Math.min(size, geometry.sectorBytes());
        Window first = site.window(0, length);
        if (!first.isRead(0, length)) {
            return Translation.refused(texts.of("translate.no-boot"));
        }
        byte[] now = java.util.Arrays.copyOf(first.raw(0, BootSector.LENGTH), BootSector.LENGTH);
        put(now, BootSector.SECTOR_BYTES, 2, size);
        put(now, BootSector.CLUSTER_SECTORS, 1, perCluster <= 128 ? perCluster : 256 - Integer.numberOfTrailingZeros(perCluster));
        put(now, BootSector.HIDDEN_SECTORS, 4, site.firstByte() / size);
        put(now, BootSector.SECTORS, 8, sectors);
        byte[] copy = new byte[size];
        System.arraycopy(now, 0, copy, 0, now.length);
        if (size > now.length) {
            Window rest = site.window(now.length, size - now.length);
            System.arraycopy(rest.raw(0, rest.length()), 0, copy, now.length, rest.length());
        }
        List<Repair.Change> changes = new ArrayList<>(List.of(new Repair.Change(site.firstByte(), now, texts.of("translate.boot", size)),
                new Repair.Change(site.firstByte() + sectors * size, copy, texts.of("translate.copy"))));
        changes.sort(Comparator.comparingLong(Repair.Change::firstByte));
        return Translation.of(changes, List.of());
    }

    private static void put(byte[] bytes, int at, int width, long value) {
        for (int i = 0; i < width; i++) {
            bytes[at + i] = (byte) (value >>> 8 * i);
        }
    }
}
