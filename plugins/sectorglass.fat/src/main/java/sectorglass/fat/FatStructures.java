package sectorglass.fat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import sectorglass.disk.Structure;
import sectorglass.disk.VolumeSite;
import sectorglass.image.Window;

/** The structures of a FAT volume by their place. */
final class FatStructures {

    /** A FAT is shown in pieces: the entries of this many bytes. FAT12 has one piece, since its entries lie across bytes. */
    private static final int PIECE = 4096;
    private static final int MOST_FAT12 = 8192;
    private static final int MOST_COPIES = 16;

    private final VolumeSite site;
    private final Found found;
    private final Geometry geometry;
    private final Root root;
    private final FatTable table;
    private final FatFiles files;

    /** @param files the files, for later clusters of folders; null where there are none */
    FatStructures(VolumeSite site, Found found, Root root, FatTable table, FatFiles files) {
        this.files = files;
        this.site = site;
        this.found = found;
        this.geometry = found.geometry();
        this.root = root;
        this.table = table;
    }

    List<Structure> listed() {
        List<Structure> all = new ArrayList<>();
        boolean form32 = geometry != null ? geometry.kind() == FatKind.FAT32
                : found.main().window().isRead(0, BootSector.SIZE) && found.main().form32();
        String format = form32 ? "fat32_boot_sector" : "fat_boot_sector";
        all.add(Structure.plain("boot sector", format, site.firstByte(), BootSector.SIZE, Map.of()));
        if (geometry == null) {
            return all;
        }
        BootSector layout = found.layout();
        Window info = InfoCheck.info(site, found);
        if (info != null) {
            all.add(Structure.plain("information sector", "fat32_fs_info", info.start(), BootSector.SIZE, Map.of()));
        }
        if (layout != null && layout.form32() && layout.backupSector() != 0 && layout.backupSector() < layout.reserved()) {
            long at = site.firstByte() + (long) layout.backupSector() * geometry.sectorBytes();
            all.add(Structure.plain("backup boot sector", format, at, BootSector.SIZE, Map.of()));
            if (info != null && layout.backupSector() + layout.infoSector() < layout.reserved()) {
                all.add(Structure.plain("backup information sector", "fat32_fs_info",
                        at + (long) layout.infoSector() * geometry.sectorBytes(), BootSector.SIZE, Map.of()));
            }
        }
        for (int copy = 0; copy < Math.min(geometry.fats(), MOST_COPIES); copy++) {
            all.add(piece(copy, 0));
        }
        if (root.directory() != null && root.directory().slots() > 0) {
            all.add(root.directory().structure("root directory", 0, Math.min(root.directory().slots(), 2048) - 1));
        }
        return all;
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
        return set.isPresent() ? set : best != null ? Optional.of(best) : fatPiece(imageByte - site.firstByte());
    }

    private Optional<Structure> fatPiece(long volumeByte) {
        for (int copy = 0; copy < Math.min(geometry.fats(), MOST_COPIES); copy++) {
            long offset = volumeByte - geometry.fatByte(copy);
            if (offset >= 0 && offset < geometry.fatBytes()) {
                return geometry.kind() == FatKind.FAT12 ? Optional.empty() : Optional.of(piece(copy, offset / PIECE));
            }
        }
        return Optional.empty();
    }

    private Structure piece(int copy, long number) {
        boolean narrow = geometry.kind() == FatKind.FAT12;
        int most = narrow ? MOST_FAT12 : PIECE;
        int length = (int) Math.min(most, geometry.fatBytes() - number * most);
        long firstEntry = narrow ? 0 : number * PIECE * 8 / geometry.kind().bits();
        return Structure.plain("FAT " + (copy + 1) + " from entry " + firstEntry, geometry.kind().word() + "_table",
                site.firstByte() + geometry.fatByte(copy) + number * most, length, Map.of("first_entry", firstEntry));
    }

    /** The entry set at a byte: in the root directory, in a cluster that starts a directory, or in a later cluster of a folder. */
    private Optional<Structure> set(long imageByte) {
        Directory directory = directoryAt(imageByte);
        int slot = directory == null ? -1 : directory.slotAt(imageByte);
        if (slot < 0) {
            return Optional.empty();
        }
        int[] set = directory.setAt(slot);
        Structure structure = directory.structure("directory entry", set[0], set[1]);
        return structure.range().contains(imageByte) ? Optional.of(structure)
                : Optional.of(directory.structure("directory entry", slot, slot));
    }

    private Directory directoryAt(long imageByte) {
        if (root.directory() != null && root.directory().slotAt(imageByte) >= 0) {
            return root.directory();
        }
        long cluster = geometry.clusterAt(imageByte - site.firstByte());
        if (cluster < 0 || !table.exists(cluster) || !site.has(geometry.clusterByte(cluster), 32)) {
            return null;
        }
        Window slot = site.window(geometry.clusterByte(cluster), 32);
        long self = slot.u16le(26) | (geometry.kind() == FatKind.FAT32 ? (long) slot.u16le(20) << 16 : 0);
        boolean starts = slot.matches(0, ".          ") && (slot.u8(11) & 0x10) != 0 && self == cluster;
        if (starts) {
            return Directory.of(site, geometry,
                    Chain.follow(table, cluster, Directory.MOST_SLOTS * (long) Directory.SLOT / geometry.clusterBytes() + 1));
        }
        Directory alone = Directory.of(site, geometry, Chain.contiguous((int) cluster, 1));
        return files != null && SlotCheck.plausible(alone) && alone.isRead(0) && alone.u8(0, 0) != 0 ? files.folderAt(imageByte) : null;
    }
}
