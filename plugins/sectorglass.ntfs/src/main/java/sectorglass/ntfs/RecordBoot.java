package sectorglass.ntfs;

import java.util.List;
import java.util.Optional;

import sectorglass.disk.Repair;
import sectorglass.disk.RepairTexts;
import sectorglass.disk.SectorEdit;
import sectorglass.disk.VolumeSite;

/** A boot sector put together from file records: what they determine is written, the rest stays as it stands. */
final class RecordBoot {
    /** The root folder; where it is lost, other system files with indexes: $Secure, $Extend, $Quota, $ObjId, $Reparse. */
    private static final int[] INDEXED = {5, 9, 11, 24, 25, 26};
    private static final int JUMP = 0x00;
    private static final int MEDIA = 0x15;
    private static final int TRACK = 0x18;
    private static final int INDEX_BLOCK_BYTES = 8;

    private final VolumeSite site;
    private final Geometry geometry;
    private final FileTable table;
    private final RepairTexts texts;

    RecordBoot(VolumeSite site, Geometry geometry, FileTable table, RepairTexts texts) {
        this.site = site;
        this.geometry = geometry;
        this.table = table;
        this.texts = texts;
    }

    Optional<Repair> propose() {
        int sector = geometry.sectorBytes();
        int index = indexBytes();
        if (index == 0 || geometry.mirrorLcn() <= 0 || sector % site.image().sectorSize() != 0 || site.range().first() > 0xFFFFFFFFL) {
            return Optional.empty();
        }
        SectorEdit edit = new SectorEdit(site.image(), site.firstByte(), sector);
        edit.put(JUMP, texts.of("why.fixed"), 0xEB, 0x52, 0x90);
        edit.put(BootSector.OEM_ID, BootSector.OEM.getBytes(java.nio.charset.StandardCharsets.US_ASCII), texts.of("why.fixed"));
        edit.le(BootSector.SECTOR_BYTES, 2, sector, texts.of("why.sector-size", sector));
        int perCluster = geometry.clusterBytes() / sector;
        edit.le(BootSector.CLUSTER_SECTORS, 1, perCluster <= 128 ? perCluster : 256 - Integer.numberOfTrailingZeros(perCluster),
                texts.of("why.cluster", geometry.clusterBytes()));
        for (int[] zero : BootSector.ZERO) {
            edit.zero(zero[0], zero[1], texts.of("why.zero"));
        }
        edit.put(MEDIA, texts.of("why.fixed"), 0xF8);
        edit.le(BootSector.HIDDEN_SECTORS, 4, site.firstByte() / sector, texts.of("why.hidden"));
        edit.le(BootSector.SECTORS, 8, geometry.sectors(), texts.of("why.sectors", geometry.sectors()));
        edit.le(BootSector.MFT_LCN, 8, geometry.mftLcn(), texts.of("why.mft"));
        edit.le(BootSector.MIRROR_LCN, 8, geometry.mirrorLcn(), texts.of("why.mirror"));
        edit.put(BootSector.RECORD_SIZE, texts.of("why.record", geometry.recordBytes()), blockByte(geometry.recordBytes()), 0, 0, 0);
        edit.put(BootSector.INDEX_SIZE, texts.of("why.index", index), blockByte(index), 0, 0, 0);
        edit.put(BootSector.END_MARKER, texts.of("why.fixed"), 0x55, 0xAA);
        edit.keep(BootSector.SERIAL, 8, "volume serial number", texts.of("kept.serial"));
        edit.keep(TRACK, 4, "sectors per track, heads", texts.of("kept.geometry"));
        edit.keep(0x54, BootSector.END_MARKER - 0x54, "boot code", texts.of("kept.boot-code"));
        return Optional.of(new Repair("ntfs.boot-from-records", texts.of("ntfs.boot-from-records.title", site.range().first()),
                texts.of("ntfs.boot-from-records.reason"), 65, false, edit.changes(texts.of("why.unread")),
                List.of(texts.of("against.records")), edit.kept()));
    }

    private int blockByte(int bytes) {
        return bytes < geometry.clusterBytes() ? -Integer.numberOfTrailingZeros(bytes) : bytes / geometry.clusterBytes();
    }

    /** Bytes per index block, the same in every index of a volume; 0 where no index root was read or it is illegal. */
    private int indexBytes() {
        for (int number : INDEXED) {
            int bytes = indexBytes(number);
            if (bytes > 0) {
                return bytes;
            }
        }
        return 0;
    }

    private int indexBytes(int number) {
        RecordView view = new RecordView();
        if (!table.load(number, view) || !view.usable() || !view.inUse()) {
            return 0;
        }
        view.rewind();
        while (view.nextAttribute()) {
            int at = view.resident() ? view.valueOffset() : -1;
            if (view.type() == AttributeType.INDEX_ROOT && at >= 0 && view.has(at, INDEX_BLOCK_BYTES + 4)) {
                long bytes = view.u32(at + INDEX_BLOCK_BYTES);
                return bytes >= 512 && bytes <= 65536 && Long.bitCount(bytes) == 1 ? (int) bytes : 0;
            }
        }
        return 0;
    }
}
