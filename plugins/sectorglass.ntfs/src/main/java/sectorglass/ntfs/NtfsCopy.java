package sectorglass.ntfs;

import sectorglass.disk.copy.CopyTarget;
import sectorglass.disk.copy.Disguise;
import sectorglass.disk.copy.StructureCopy;
import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;

/**
 * The structures of an NTFS volume without names and content: boot sectors, file table and its mirror, bitmaps, folders' blocks, attribute lists, $UpCase,
 * $AttrDef. Journal, security descriptors, view indexes outside records, and blocks of folders that are not in use stay out.
 */
final class NtfsCopy implements StructureCopy {
    private static final String[] SYSTEM = {"$MFT", "$MFTMirr", "$LogFile", "$Volume", "$AttrDef", ".", "$Bitmap", "$Boot", "$BadClus", "$Secure", "$UpCase",
        "$Extend", "$ObjId", "$Quota", "$Reparse", "$RmMetadata", "$Repair", "$TxfLog", "$Txf", "$Tops", "$TxfLog.blf", "$UsnJrnl", "$Deleted"};
    private static final int SERIAL = 0x48;
    private static final int CHUNK = 1 << 16;

    private final NtfsVolume volume;

    NtfsCopy(NtfsVolume volume) {
        this.volume = volume;
    }

    @Override
    public void learn(Disguise disguise, Progress progress) {
        for (String name : SYSTEM) {
            disguise.keep(name);
        }
        FileTable table = volume.table();
        table.scan(0, table.records(), (view, address) -> {
            if (!view.usable()) {
                return;
            }
            view.rewind();
            while (view.nextAttribute()) {
                if (view.nameLength() > 0) {
                    disguise.learn(view.attributeName());
                }
                NameValue name = view.type() == AttributeType.FILE_NAME ? NameValue.of(view) : null;
                if (name != null) {
                    disguise.learn(name.name());
                }
            }
        }, progress);
        folders(table, progress, folder -> new DirectoryIndex(table, folder).entries((block, at, key, length) -> {
            NameValue name = NameValue.at(block, key, length);
            if (name != null) {
                disguise.learn(name.name());
            }
        }, Long.MAX_VALUE));
    }

    private interface Use {
        void folder(FileRecord folder);
    }

    private static void folders(FileTable table, Progress progress, Use use) {
        for (long number = 0; number < table.records(); number++) {
            progress.checkCancelled();
            RecordView view = new RecordView();
            if (table.load(number, view) && view.usable() && view.isBase() && view.directory()) {
                FileRecord folder = FileRecord.of(table, number);
                if (folder != null && folder.inUse()) {
                    use.folder(folder);
                }
            }
        }
    }

    @Override
    public void copy(CopyTarget to, Disguise disguise, Progress progress) {
        FileTable table = volume.table();
        Geometry g = table.geometry();
        boot(to, g.firstByte(), disguise);
        boot(to, g.backupByte(), disguise);
        RecordDisguise records = new RecordDisguise(disguise);
        int size = g.recordBytes();
        int group = Math.max(size, to.source().sectorSize());
        for (long at = 0; at + group <= table.records() * size; at += group) {
            progress.checkCancelled();
            progress.at("file records", at / size, table.records());
            records(to, StreamPart.window(to.source(), g, table.runs(), at, group), records, size);
        }
        if (g.holds(g.mirrorLcn(), 1)) {
            int length = Math.max(g.clusterBytes(), 4 * size) / group * group;
            records(to, to.source().window(g.clusterByte(g.mirrorLcn()), length), records, size);
        }
        system(to, table, 6, AttributeType.DATA);
        system(to, table, 0, AttributeType.BITMAP);
        system(to, table, 4, AttributeType.DATA);
        system(to, table, 10, AttributeType.DATA);
        folders(table, progress, folder -> blocks(to, table, folder, records));
        lists(to, table, progress);
    }

    private static void boot(CopyTarget to, long at, Disguise disguise) {
        Window w = to.source().window(at, to.source().sectorSize());
        byte[] bytes = w.raw(0, w.length());
        if (disguise.numbers()) {
            // the same bits of both copies change, so that what differed differs still
            for (int i = 0; i < 8; i++) {
                bytes[SERIAL + i] ^= (byte) (disguise.random(SERIAL) >>> 8 * i);
            }
        }
        to.put(w, bytes);
    }

    private static void records(CopyTarget to, Window w, RecordDisguise records, int size) {
        if (w == null) {
            return;
        }
        byte[] bytes = w.raw(0, w.length());
        for (int at = 0; at + size <= bytes.length; at += size) {
            records.record(bytes, at, size);
        }
        to.put(w, bytes);
    }

    /** A stream of the system as it stands, its slack zero. */
    private static void system(CopyTarget to, FileTable table, long record, int type) {
        FileRecord file = FileRecord.of(table, record);
        FileStream stream = file == null ? null : file.stream(type, "").orElse(null);
        if (stream == null || stream.resident || !believed(table, record, type, stream)) {
            return;
        }
        int size = to.source().sectorSize();
        long all = Math.min(stream.real, stream.runs.readableEnd(table.geometry(), table.image().bytes()) * table.geometry().clusterBytes());
        for (long at = 0; at < all; at += CHUNK) {
            int length = (int) Math.min(CHUNK, all - at);
            int sectors = (length + size - 1) / size * size;
            Window w = StreamPart.window(table.image(), table.geometry(), stream.runs, at, sectors);
            if (w != null) {
                byte[] bytes = w.raw(0, sectors);
                java.util.Arrays.fill(bytes, length, sectors, (byte) 0);
                to.put(w, bytes);
            }
        }
    }

    /**
     * Whether the runs of a system's stream lead to what it should hold and not to content: bits of the first records and of the table's own clusters are
     * set, capital letters are capital letters, definitions begin with the first one.
     */
    private static boolean believed(FileTable table, long record, int type, FileStream stream) {
        int length = (int) Math.min(1 << 16, Math.max(0, stream.real));
        StreamPart part = StreamPart.read(table.image(), table.geometry(), stream.runs, 0, length);
        byte[] b = part.bytes;
        if (length < 8) {
            return false;
        }
        if (record == 0) {
            return !part.isRead(0, 1) || (b[0] & 0xFF) == 0xFF;
        }
        if (record == 4) {
            return part.isRead(0, 8) && b[0] == '$' && b[1] == 0 && b[2] == 'S' && b[4] == 'T';
        }
        if (record == 10) {
            return length > 256 && part.isRead(0, 256) && b[2 * 'a'] == 'A' && b[2 * 'z'] == 'Z' && b[2 * 'A'] == 'A';
        }
        long own = table.geometry().mftLcn();
        return own / 8 >= length || !part.isRead((int) (own / 8), 1) || (b[(int) (own / 8)] >> own % 8 & 1) != 0;
    }

    private static void blocks(CopyTarget to, FileTable table, FileRecord folder, RecordDisguise records) {
        FileStream allocation = folder.stream(AttributeType.INDEX_ALLOCATION, DirectoryIndex.I30).orElse(null);
        if (allocation == null || !allocation.sized) {
            return;
        }
        Geometry g = table.geometry();
        SectorImage image = table.image();
        int size = g.indexBytes();
        long count = Math.min(allocation.real, allocation.runs.readableEnd(g, image.bytes()) * g.clusterBytes()) / size;
        IndexBitmap used = IndexBitmap.of(table, folder);
        for (long i = 0; i < count; i++) {
            Window w = used.get(i) ? StreamPart.window(image, g, allocation.runs, i * size, size) : null;
            if (w != null && size % image.sectorSize() == 0) {
                byte[] bytes = w.raw(0, size);
                records.block(bytes, 0, size);
                to.put(w, bytes);
            }
        }
    }

    /** Attribute lists that stand in clusters of their own: numbers, and names of streams. */
    private void lists(CopyTarget to, FileTable table, Progress progress) {
        RecordView view = new RecordView();
        for (long number = 0; number < table.records(); number++) {
            progress.checkCancelled();
            if (!table.load(number, view) || !view.usable()) {
                continue;
            }
            view.rewind();
            while (view.nextAttribute()) {
                if (view.type() == AttributeType.ATTRIBUTE_LIST && !view.resident() && view.has(view.attribute, 0x40)) {
                    list(to, table, view);
                }
            }
        }
    }

    private static void list(CopyTarget to, FileTable table, RecordView view) {
        RunList runs = new RunList();
        runs.add(view, view.runsOffset(), view.next, view.lowestVcn());
        int size = to.source().sectorSize();
        int length = (int) Math.max(0, Math.min(AttributeList.MOST_BYTES, view.realSize()));
        int sectors = (length + size - 1) / size * size;
        Window w = StreamPart.window(table.image(), table.geometry(), runs, 0, sectors);
        // names of streams would have to be replaced at places that no longer are whole entries where a part was not read
        if (w != null && w.isRead(0, sectors)) {
            byte[] bytes = w.raw(0, sectors);
            for (int at = 0; at <= length - 26;) {
                int step = bytes[at + 4] & 0xFF | (bytes[at + 5] & 0xFF) << 8;
                int type = bytes[at] & 0xFF | (bytes[at + 1] & 0xFF) << 8;
                if (step < 26 || step > length - at || bytes[at + 6] != 0 || type == 0 || type > 0x100 || (type & 15) != 0 || bytes[at + 2] != 0) {
                    return;
                }
                java.util.Arrays.fill(bytes, at + 26, at + step, (byte) 0);
                at += step;
            }
            java.util.Arrays.fill(bytes, length, sectors, (byte) 0);
            to.put(w, bytes);
        }
    }
}
