package sectorglass.exfat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import sectorglass.disk.Structure;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** The structures of an exFAT volume by their place. */
final class ExfatStructures {

    /** A FAT, a bitmap, a table are shown in pieces of this many bytes. */
    private static final int PIECE = 4096;

    private final VolumeSite site;
    private final Found found;
    private final Geometry geometry;
    private final Root root;
    private final ExfatFiles files;

    /** @param files the files, for later clusters of folders; null where there are none */
    ExfatStructures(VolumeSite site, Found found, Root root, ExfatFiles files) {
        this.files = files;
        this.site = site;
        this.found = found;
        this.geometry = found.geometry();
        this.root = root;
    }

    List<Structure> listed() {
        List<Structure> all = new ArrayList<>();
        if (geometry == null) {
            all.add(Structure.plain("boot sector", "exfat_boot_sector", site.firstByte(), BootSector.SIZE, Map.of()));
            return all;
        }
        region(all, "", BootRegion.MAIN);
        region(all, "backup ", BootRegion.BACKUP);
        for (int copy = 0; copy < geometry.fats(); copy++) {
            all.add(fatPiece(copy, 0));
        }
        if (root != null && root.directory() != null) {
            root.bitmaps().forEach(slot -> table(all, "allocation bitmap", "exfat_bitmap", slot));
            root.upcases().forEach(slot -> table(all, "up-case table", "exfat_upcase_table", slot));
            if (root.directory().slots() > 0) {
                all.add(root.directory().structure("root directory", 0, Math.min(root.directory().slots(), 2048)));
            }
        }
        return all;
    }

    private void region(List<Structure> all, String which, int first) {
        int size = geometry.sectorBytes();
        Map<String, Object> params = Map.of("sector_size", (long) size);
        long at = site.firstByte() + (long) first * size;
        all.add(Structure.plain(which + "boot sector", "exfat_boot_sector", at, BootSector.SIZE, Map.of()));
        for (int i = 1; i <= 8; i++) {
            all.add(Structure.plain(which + "extended boot sector " + i, "exfat_extended_boot_sector", at + (long) i * size, size, params));
        }
        all.add(Structure.plain(which + "OEM parameters", "exfat_oem_parameters", at + 9L * size, size, Map.of()));
        all.add(Structure.plain(which + "boot checksum", "exfat_boot_checksum", at + 11L * size, size, Map.of()));
    }

    private void table(List<Structure> all, String name, String format, int slot) {
        long first = root.directory().u32(slot, 20);
        long length = root.directory().u64(slot, 24);
        if (geometry.exists(first) && length > 0) {
            int shown = (int) Math.min(length, Math.min(PIECE, geometry.clusterBytes()));
            all.add(Structure.plain(name, format, site.firstByte() + geometry.clusterByte(first), shown,
                    format.equals("exfat_bitmap") ? Map.of("first_cluster", 2L) : Map.of()));
        }
    }

    private Structure fatPiece(int copy, long number) {
        long at = (geometry.fatOffset() + copy * geometry.fatLength()) * geometry.sectorBytes() + number * PIECE;
        int length = (int) Math.min(PIECE, geometry.fatLength() * geometry.sectorBytes() - number * PIECE);
        return Structure.plain("FAT " + (copy + 1) + " from entry " + number * PIECE / 4, "exfat_fat", site.firstByte() + at, length,
                Map.of("first_entry", number * PIECE / 4));
    }

    Optional<Structure> at(long imageByte) {
        Structure best = null;
        for (Structure structure : listed()) {
            if (structure.range().contains(imageByte) && (best == null || structure.range().length() < best.range().length())) {
                best = structure;
            }
        }
        if (geometry == null || imageByte < site.firstByte()) {
            return Optional.ofNullable(best);
        }
        Optional<Structure> set = set(imageByte);
        return set.isPresent() ? set : best != null ? Optional.of(best) : fatPieceAt(imageByte - site.firstByte());
    }

    private Optional<Structure> fatPieceAt(long volumeByte) {
        for (int copy = 0; copy < geometry.fats(); copy++) {
            long offset = volumeByte - (geometry.fatOffset() + copy * geometry.fatLength()) * geometry.sectorBytes();
            if (offset >= 0 && offset < geometry.fatLength() * geometry.sectorBytes()) {
                return Optional.of(fatPiece(copy, offset / PIECE));
            }
        }
        return Optional.empty();
    }

    private Optional<Structure> set(long imageByte) {
        Directory directory = directoryAt(imageByte);
        int slot = directory == null ? -1 : directory.slotAt(imageByte);
        if (slot < 0) {
            return Optional.empty();
        }
        int[] set = directory.setAt(slot);
        Structure structure = directory.structure("directory entry set", set[0], set[1]);
        return Optional.of(structure.range().contains(imageByte) ? structure : directory.structure("directory entry", slot, 1));
    }

    /**
     * The root directory, a cluster whose first slots look like an entry set (the specification gives directories no other mark), or a
     * cluster that starts within a set and belongs to a folder.
     */
    private Directory directoryAt(long imageByte) {
        if (root != null && root.directory() != null && root.directory().slotAt(imageByte) >= 0) {
            return root.directory();
        }
        long cluster = geometry.clusterAt(imageByte - site.firstByte());
        if (cluster < 0 || !site.has(geometry.clusterByte(cluster), 64)) {
            return null;
        }
        Window head = site.window(geometry.clusterByte(cluster), 64);
        if (!head.isRead(0, 64)) {
            return null;
        }
        boolean looks = (head.u8(0) & 0x7F) == 0x05 && (head.u8(32) & 0x7F) == 0x40 && head.u8(1) >= 2 && head.u8(1) <= 18;
        boolean within = (head.u8(0) & 0x7F) == 0x40 || (head.u8(0) & 0x7F) == 0x41;
        Directory folder = files != null && (looks || within) ? files.folderAt(imageByte) : null;
        return folder != null ? folder : looks ? Directory.of(site, geometry, Chain.contiguous(geometry, cluster, 1), geometry.clusterBytes()) : null;
    }
}
