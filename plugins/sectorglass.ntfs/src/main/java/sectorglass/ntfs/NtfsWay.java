package sectorglass.ntfs;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.way.FileWay;
import sectorglass.disk.way.WayBuilder;
import sectorglass.disk.way.WayStep;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Texts;
import sectorglass.image.UnreadException;
import sectorglass.image.Window;

/**
 * The way from the boot sector to a file: file table, root folder, down the index tree of each folder, record, runs. Sources: Linux kernel
 * fs/ntfs3/ntfs.h; NTFS-3G runlist.c.
 */
final class NtfsWay implements FileWay {
    private static final int ROOT = 5;

    private final NtfsVolume volume;

    NtfsWay(NtfsVolume volume) {
        this.volume = volume;
    }

    @Override
    public List<WayStep> way(List<String> parts, Locale locale) {
        return WayBuilder.run(new Texts(NtfsRules.class, "way", locale), way -> {
            boot(way);
            FileTable table = volume.table();
            table(way, table);
            long number = ROOT;
            FileRecord file = record(way, table, number, "", "root");
            for (int i = 0; i < parts.size(); i++) {
                if (!file.directory()) {
                    throw way.stop("no-folder", parts.get(i - 1));
                }
                number = new IndexWay(way, table, file).find(parts.get(i));
                file = record(way, table, number, parts.get(i), null);
            }
            if (file.directory()) {
                file.stream(AttributeType.INDEX_ROOT, DirectoryIndex.I30).ifPresent(s -> way.next(s.valueByte));
            } else {
                data(way, table, file, parts.get(parts.size() - 1));
            }
        });
    }

    private void boot(WayBuilder way) {
        Geometry g = volume.boot().geometry();
        if (volume.boot().fromRecords()) {
            Window first = volume.table().image().window(g.firstByte(), g.sectorBytes());
            way.step("boot", first.range(), "ntfs_boot_sector");
            throw way.stop("boot");
        }
        Window w = volume.table().image().window(volume.boot().byteFound(), 512);
        way.step(volume.boot().backup() ? "backup" : "boot", w.range(), "ntfs_boot_sector");
        way.number("sector-bytes", w, 0x0B, 2);
        long sectors = way.number("cluster-sectors", w, 0x0D, 1);
        way.number("mft", w, 0x30, 8);
        way.read("record-bytes", w.range(0x40, 1), w.bytes(0x40, 1), g.recordBytes());
        way.sum("cluster-bytes", g.sectorBytes() + " × " + (sectors <= 128 ? Long.toString(sectors) : "2^" + (256 - sectors)), g.clusterBytes());
        way.next(cluster(way, g, g.mftLcn(), 0));
    }

    private static long cluster(WayBuilder way, Geometry g, long lcn, long more) {
        return way.sum(more == 0 ? "cluster" : "in-cluster", g.firstByte() + " + " + lcn + " × " + g.clusterBytes() + (more == 0 ? "" : " + " + more),
                g.clusterByte(lcn) + more);
    }

    /** Record 0 tells where the table lies, so where every other record does. */
    private void table(WayBuilder way, FileTable table) {
        Geometry g = table.geometry();
        boolean mirror = table.origin() == FileTable.Origin.MIRROR;
        ByteRange where = new ByteRange(g.clusterByte(mirror ? g.mirrorLcn() : g.mftLcn()), g.recordBytes());
        way.step(mirror ? "mirror" : "table", where, "ntfs_file_record");
        if (table.origin() != FileTable.Origin.RECORD_0 && !mirror) {
            Window w = table.image().window(where.start(), g.recordBytes());
            w.require(0, g.recordBytes());
            throw way.stop("table");
        }
        if (!mirror) {
            RecordView view = new RecordView();
            if (table.load(0, view) && seek(view)) {
                run(way, table, view);
            }
        }
        next(way, table, ROOT);
    }

    /** Puts the cursor on the unnamed stream of content; false where the record has none. */
    private static boolean seek(RecordView view) {
        view.rewind();
        while (view.nextAttribute()) {
            if (view.type() == AttributeType.DATA && view.nameLength() == 0) {
                return true;
            }
        }
        return false;
    }

    /** Reads the first run of the attribute at the cursor; gives its first cluster, or -1 where it stands nowhere. */
    private static long run(WayBuilder way, FileTable table, RecordView view) {
        int at = view.runsOffset();
        if (!view.has(at, 1) || at >= view.next) {
            throw way.stop("runs");
        }
        int head = view.u8(at);
        int length = head & 15;
        int lcn = head >> 4;
        if (length == 0 || length > 8 || lcn > 8 || !view.has(at, 1 + length + lcn) || at + 1 + length + lcn > view.next) {
            throw way.stop("runs");
        }
        read(way, table, view, "run-head", at, 1, length + " + " + lcn);
        read(way, table, view, "run-length", at + 1, length, signed(view, at + 1, length));
        if (lcn == 0) {
            return RunList.HOLE;
        }
        long first = signed(view, at + 1 + length, lcn);
        read(way, table, view, "run-start", at + 1 + length, lcn, first);
        return first;
    }

    private static long signed(RecordView view, int at, int count) {
        long value = (byte) view.u8(at + count - 1);
        for (int i = at + count - 2; i >= at; i--) {
            value = value << 8 | view.u8(i);
        }
        return value;
    }

    private static void read(WayBuilder way, FileTable table, RecordView view, String name, int at, int length, Object value) {
        way.read(name, new ByteRange(table.byteAt(view.number, at), length), Arrays.copyOfRange(view.bytes, view.start + at, view.start + at + length), value);
    }

    /** The arithmetic from the number of a record to its first byte. */
    static void next(WayBuilder way, FileTable table, long record) {
        Geometry g = table.geometry();
        long at = table.address(record);
        if (at < 0) {
            throw way.stop("record", record);
        }
        long vcn = way.sum("vcn", record + " × " + g.recordBytes() + " ÷ " + g.clusterBytes(), record * g.recordBytes() / g.clusterBytes());
        int run = table.runs().runAt(vcn);
        long lcn = table.runs().lcn(run) + vcn - table.runs().vcn(run);
        way.sum("lcn", table.runs().lcn(run) + " + " + vcn + " − " + table.runs().vcn(run), lcn);
        way.next(cluster(way, g, lcn, record * g.recordBytes() % g.clusterBytes()));
    }

    private static FileRecord record(WayBuilder way, FileTable table, long number, String name, String key) {
        FileRecord file = FileRecord.of(table, number);
        ByteRange where = new ByteRange(table.address(number), table.geometry().recordBytes());
        way.step(key != null ? key : file != null && file.directory() ? "folder" : "file", where, "ntfs_file_record", number, name);
        if (file == null) {
            Window w = table.window(number);
            if (w != null && !w.isRead(0, w.length())) {
                throw new UnreadException(w.missing(0, w.length()));
            }
            throw way.stop("record", number);
        }
        RecordView view = new RecordView();
        table.load(number, view);
        read(way, table, view, "sequence", RecordView.SEQUENCE, 2, file.sequence);
        read(way, table, view, "record-flags", RecordView.FLAGS, 2, file.flags);
        return file;
    }

    private static void data(WayBuilder way, FileTable table, FileRecord file, String name) {
        FileStream stream = file.stream(AttributeType.DATA, "").orElse(null);
        if (stream == null || stream.size() == 0) {
            throw way.stop(stream == null && file.incomplete ? "no-data" : "empty", name);
        }
        RecordView view = new RecordView();
        if (stream.record != file.number) {
            way.read("list", new ByteRange(table.address(file.number), table.geometry().recordBytes()), new byte[0], stream.record);
            next(way, table, stream.record);
            way.step("extension", new ByteRange(table.address(stream.record), table.geometry().recordBytes()), "ntfs_file_record", stream.record, name);
        }
        if (!table.load(stream.record, view) || !seek(view)) {
            throw way.stop("no-data", name);
        }
        read(way, table, view, "attribute", view.attribute, 4, view.attribute);
        if (stream.resident) {
            read(way, table, view, "value-length", view.attribute + 0x10, 4, view.u32(view.attribute + 0x10));
            int offset = view.u16(view.attribute + 0x14);
            read(way, table, view, "value-offset", view.attribute + 0x14, 2, offset);
            long record = table.byteAt(stream.record, 0);
            way.next(way.sum("resident", record + " + " + view.attribute + " + " + offset, stream.valueByte));
            return;
        }
        if (stream.compressed() || stream.encrypted()) {
            read(way, table, view, "stream-flags", view.attribute + 0x0C, 2, stream.compressed() ? "compressed" : "encrypted");
        }
        read(way, table, view, "runs-offset", view.attribute + 0x20, 2, view.u16(view.attribute + 0x20));
        long lcn = run(way, table, view);
        Geometry g = table.geometry();
        if (lcn == RunList.HOLE) {
            throw way.stop("hole");
        }
        if (!g.holds(lcn, 1)) {
            throw way.stop("cluster", lcn);
        }
        way.next(cluster(way, g, lcn, 0));
    }

    /** Unread sectors of a part of a stream, or the reason why it cannot be used. */
    static SectorRanges missing(StreamPart part) {
        return part.missing(0, part.bytes.length);
    }
}
