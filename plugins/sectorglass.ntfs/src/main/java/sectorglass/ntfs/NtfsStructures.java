package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import sectorglass.disk.Structure;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;

/** The structures of a volume by their place: boot sector and its copy, file records, their mirror, index blocks of the root folder. */
final class NtfsStructures {
    static final String BOOT = "ntfs_boot_sector";
    static final String RECORD = "ntfs_file_record";
    static final String INDEX = "ntfs_index_record";
    static final String RESTART = "ntfs_restart_page";
    private static final int LISTED_RECORDS = 64;
    private static final int LISTED_BLOCKS = 16;
    private static final int LOG_FILE = 2;
    private static final String[] SYSTEM = {"$MFT", "$MFTMirr", "$LogFile", "$Volume", "$AttrDef", ". (root folder)", "$Bitmap", "$Boot",
        "$BadClus", "$Secure", "$UpCase", "$Extend"};

    private final FileTable table;
    private final Geometry geometry;

    NtfsStructures(FileTable table) {
        this.table = table;
        this.geometry = table.geometry();
    }

    List<Structure> listed() {
        List<Structure> all = new ArrayList<>();
        all.add(Structure.plain("boot sector", BOOT, geometry.firstByte(), BootSector.LENGTH, Map.of()));
        for (long i = 0; i < Math.min(LISTED_RECORDS, table.records()); i++) {
            record(i).ifPresent(all::add);
        }
        for (int i = 0; i < geometry.mirrorRecords() && i < LISTED_RECORDS; i++) {
            mirror(i).ifPresent(all::add);
        }
        all.addAll(rootBlocks());
        all.addAll(restartPages());
        all.add(Structure.plain("boot sector, copy", BOOT, geometry.backupByte(), BootSector.LENGTH, Map.of()));
        return List.copyOf(all);
    }

    /** The structure at a byte, also one that is not listed; looks at the table's runs and at the bytes themselves. */
    Optional<Structure> at(long imageByte, List<Structure> listed) {
        for (Structure structure : listed) {
            if (structure.range().contains(imageByte)) {
                return Optional.of(structure);
            }
        }
        long record = table.recordAt(imageByte);
        return record >= 0 ? record(record) : stray(imageByte);
    }

    Optional<Structure> record(long number) {
        long address = table.address(number);
        if (address < 0) {
            return Optional.empty();
        }
        int size = geometry.recordBytes();
        String name = "file record " + number + (number < SYSTEM.length ? ", " + SYSTEM[(int) number] : "");
        return Optional.of(new Structure(name, RECORD, new ByteRange(address, contiguous(number)), Map.of(),
                image -> FixUp.undo(stored(image, number, address, size))));
    }

    /** Bytes of a record that stand one after the other; clusters smaller than a record may lie apart. */
    private int contiguous(long number) {
        long address = table.address(number);
        int length = geometry.clusterBytes();
        while (length < geometry.recordBytes() && table.byteAt(number, length) == address + length) {
            length += geometry.clusterBytes();
        }
        return Math.min(length, geometry.recordBytes());
    }

    private Window stored(SectorImage image, long number, long address, int size) {
        Window window = StreamPart.window(image, geometry, table.runs(), number * size, size);
        return window != null ? window : image.window(address, size);
    }

    private Optional<Structure> mirror(int number) {
        long address = geometry.clusterByte(geometry.mirrorLcn()) + (long) number * geometry.recordBytes();
        if (!BootSector.lcnLegal(geometry.mirrorLcn(), geometry)) {
            return Optional.empty();
        }
        return Optional.of(block("mirror of file record " + number, RECORD, address, geometry.recordBytes(), Map.of()));
    }

    private Structure block(String name, String format, long address, int length, Map<String, Object> params) {
        return new Structure(name, format, new ByteRange(address, length), params, image -> FixUp.undo(image.window(address, length)));
    }

    private List<Structure> rootBlocks() {
        List<Structure> all = new ArrayList<>();
        FileRecord root = FileRecord.of(table, VolumeFacts.ROOT);
        FileStream blocks = root == null ? null : root.stream(AttributeType.INDEX_ALLOCATION, DirectoryIndex.I30).orElse(null);
        int size = geometry.indexBytes();
        for (int i = 0; blocks != null && i < Math.min(LISTED_BLOCKS, blocks.real / size); i++) {
            int run = blocks.runs.runAt((long) i * size / geometry.clusterBytes());
            if (run >= 0 && blocks.runs.lcn(run) >= 0 && geometry.holds(blocks.runs.lcn(run), blocks.runs.count(run))) {
                long address = geometry.clusterByte(blocks.runs.lcn(run)) + (long) i * size
                        - blocks.runs.vcn(run) * geometry.clusterBytes();
                all.add(block("index block " + i + " of the root folder", INDEX, address, size, Map.of()));
            }
        }
        return all;
    }

    private List<Structure> restartPages() {
        FileRecord log = FileRecord.of(table, LOG_FILE);
        FileStream data = log == null ? null : log.stream(AttributeType.DATA, "").orElse(null);
        List<Structure> all = new ArrayList<>();
        for (int page = 0; data != null && page < 2; page++) {
            int run = data.runs.runAt(page * 4096L / geometry.clusterBytes());
            if (run >= 0 && data.runs.lcn(run) >= 0 && geometry.holds(data.runs.lcn(run), data.runs.count(run))) {
                long address = geometry.clusterByte(data.runs.lcn(run)) + page * 4096L
                        - data.runs.vcn(run) * geometry.clusterBytes();
                all.add(block("log restart page " + (page + 1), RESTART, address, 4096, Map.of()));
            }
        }
        return all;
    }

    /** An index block of any folder, or a record outside the table: known by its signature at a place where one may begin. */
    private Optional<Structure> stray(long imageByte) {
        Optional<Structure> block = signed(imageByte, "INDX", "index block", INDEX, geometry.indexBytes());
        return block.isPresent() ? block : signed(imageByte, "FILE", "file record outside the table", RECORD, geometry.recordBytes());
    }

    private Optional<Structure> signed(long imageByte, String signature, String name, String format, int size) {
        long inVolume = imageByte - geometry.firstByte();
        if (inVolume < 0 || inVolume >= geometry.clusters() * geometry.clusterBytes()) {
            return Optional.empty();
        }
        int unit = Math.min(size, geometry.clusterBytes());
        for (long at = inVolume - inVolume % unit; at >= 0 && at > inVolume - size; at -= unit) {
            Window head = table.image().window(geometry.firstByte() + at, 4);
            if (head.isRead(0, 4) && head.matches(0, signature)) {
                return Optional.of(block(name, format, geometry.firstByte() + at, size, Map.of()));
            }
        }
        return Optional.empty();
    }
}
