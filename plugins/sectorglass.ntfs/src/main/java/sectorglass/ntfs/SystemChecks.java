package sectorglass.ntfs;

import java.util.Arrays;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.Window;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Phrase;

/** The rules of system files: mirror, sequence numbers, dirty flag, the bitmap's own clusters and tail, doubled security descriptors. */
final class SystemChecks {
    private static final int SEQUENCES = 16;
    private static final int SDS_BLOCK = 256 << 10;
    private static final int[] OWN = {0, 1, 2, 6, 7};
    private static final String[] OWN_NAMES = {"$MFT", "$MFTMirr", "$LogFile", "$Bitmap", "$Boot"};

    private final FileTable table;
    private final Geometry geometry;
    private final ClusterMap map;
    private final Tally tally;
    private final Checks out;

    SystemChecks(FileTable table, ClusterMap map, Tally tally, Checks out) {
        this.table = table;
        this.geometry = table.geometry();
        this.map = map;
        this.tally = tally;
        this.out = out;
    }

    void quick(Mark totalSectors) {
        mirror();
        sequences();
        dirty();
        bitmap(totalSectors);
    }

    private void mirror() {
        if (!BootSector.lcnLegal(geometry.mirrorLcn(), geometry)) {
            return;
        }
        int size = geometry.recordBytes();
        for (int i = 0; i < Math.min(geometry.mirrorRecords(), table.records()); i++) {
            long place = geometry.clusterByte(geometry.mirrorLcn()) + (long) i * size;
            if (place + size > table.image().bytes() || table.address(i) == place) {
                continue;
            }
            int number = i;
            ByteRange where = new ByteRange(place, size);
            out.in(where).check("ntfs.mirror.equal", where, () -> compare(number, place, size));
        }
    }

    /** Compares record and copy stride by stride; a torn stride is not compared: its own rule names it. */
    private Outcome compare(int number, long place, int size) {
        Window stored = table.window(number);
        if (stored == null) {
            return null;
        }
        Window copy = table.image().window(place, size);
        byte[] copied = copy.raw(0, size);
        RecordView first = new RecordView();
        RecordView second = new RecordView();
        table.load(number, first);
        second.load(copied, 0, size, table.image().read(place, copied, 0, size), place);
        SectorRanges missing = SectorRanges.EMPTY;
        for (int at = 0; at < size; at += FixedBlock.STRIDE) {
            if (!stored.isRead(at, FixedBlock.STRIDE) || !copy.isRead(at, FixedBlock.STRIDE)) {
                missing = missing.union(stored.missing(at, FixedBlock.STRIDE)).union(copy.missing(at, FixedBlock.STRIDE));
                continue;
            }
            // the mark at the end of a stride may differ: it is compared undone, which needs both heads
            int count = undone(first) && undone(second) ? FixedBlock.STRIDE : FixedBlock.STRIDE - 2;
            boolean torn = first.strideTorn(at >> 9) || second.strideTorn(at >> 9);
            if (torn) {
                continue;
            }
            for (int i = at; i < at + count; i++) {
                if (!sequence(first, i) && first.u8(i) != second.u8(i)) {
                    return Outcome.failed(hex(second.u8(i)), hex(first.u8(i))).at(new ByteRange(place + i, 1)).with("record", number)
                            .with("offset", i).because(tally.mark(number));
                }
            }
        }
        return missing.isEmpty() ? Outcome.passed() : Outcome.unread(missing);
    }

    private static boolean undone(RecordView view) {
        return view.fix() == FixedBlock.Fix.GOOD || view.fix() == FixedBlock.Fix.TORN;
    }

    /** Whether the byte belongs to the update sequence, which every write changes. */
    private static boolean sequence(RecordView view, int at) {
        if (view.fix() == FixedBlock.Fix.BAD_HEADER || !view.has(0, 8)) {
            return false;
        }
        int from = view.u16(FixedBlock.FIXUP_OFFSET);
        return at >= from && at < from + 2 * view.u16(FixedBlock.FIXUP_COUNT);
    }

    private static String hex(int value) {
        return String.format(java.util.Locale.ROOT, "%02X", value);
    }

    private void sequences() {
        RecordView view = new RecordView();
        for (int i = 0; i < SEQUENCES && table.load(i, view); i++) {
            if (!view.usable()) {
                continue;
            }
            int wanted = Math.max(1, i);
            int stored = view.sequence();
            int number = i;
            boolean used = view.inUse();
            ByteRange where = new ByteRange(Math.max(0, table.byteAt(i, RecordView.SEQUENCE)), 2);
            out.in(new ByteRange(Math.max(0, table.address(i)), view.size)).check("ntfs.system-sequence", where,
                    () -> used ? Outcome.test(stored == wanted, stored, wanted).with("record", number) : null);
        }
    }

    private void dirty() {
        FileRecord volume = FileRecord.of(table, 3);
        FileStream about = volume == null ? null : volume.stream(AttributeType.VOLUME_INFORMATION, "").orElse(null);
        if (about == null || about.value == null || about.value.length < 12 || about.valueByte < 0) {
            return;
        }
        ByteRange where = new ByteRange(about.valueByte + 10, 2);
        out.check("ntfs.volume.dirty", where, () -> {
            table.image().window(where.start(), 2).require(0, 2);
            int flags = FileKinds.number(about.value, 10, 2);
            return Outcome.test((flags & 1) == 0, String.format(java.util.Locale.ROOT, "%04X", flags), "bit 0 clear");
        });
    }

    private void bitmap(Mark totalSectors) {
        FileStream stream = map.stream();
        if (stream == null) {
            return;
        }
        long bytes = (geometry.clusters() + 7) / 8;
        long first = Math.max(0, Places.of(geometry, stream.runs, 0));
        Checks in = out.in(new ByteRange(first, 1));
        in.check("ntfs.bitmap.tail", Places.range(geometry, stream, Math.max(0, bytes - 1), 1), () -> tail(stream, bytes, totalSectors));
        for (int i = 0; i < OWN.length; i++) {
            FileRecord file = FileRecord.of(table, OWN[i]);
            FileStream data = file == null ? null : file.stream(AttributeType.DATA, "").orElse(null);
            if (data != null && !data.resident) {
                String name = OWN_NAMES[i];
                in.check("ntfs.bitmap.self", new ByteRange(first, 1), () -> self(stream, data, name));
            }
        }
    }

    private Outcome tail(FileStream stream, long bytes, Mark totalSectors) {
        if (!stream.sized) {
            return null;
        }
        if (stream.real < bytes) {
            return Outcome.failed(stream.real, bytes).with("field", Phrase.of("field.length")).because(totalSectors)
                    .at(new ByteRange(Math.max(0, stream.headerByte) + 0x30, 8));
        }
        int used = (int) (geometry.clusters() % 8);
        if (used == 0) {
            return Outcome.passed();
        }
        long at = Places.of(geometry, stream.runs, bytes - 1);
        if (at < 0) {
            return null;
        }
        int bits = table.image().window(at, 1).u8(0);
        return Outcome.test(bits >> used == 0xFF >> used, hex(bits), "bits " + used + " to 7 set").with("field", Phrase.of("field.bits"));
    }

    private Outcome self(FileStream bitmap, FileStream data, String name) {
        SectorRanges[] missing = {SectorRanges.EMPTY};
        Outcome[] found = {null};
        for (int i = 0; i < data.runs.runs() && found[0] == null; i++) {
            long lcn = data.runs.lcn(i);
            if (lcn == RunList.HOLE || lcn >= geometry.clusters()) {
                continue;
            }
            long end = Math.min(geometry.clusters(), lcn + data.runs.count(i));
            map.read(lcn, end, (first, count, part) -> {
                for (int at = (int) Math.max(0, lcn - first); at < count && found[0] == null; at++) {
                    if (!part.isRead(at / 8, 1)) {
                        missing[0] = missing[0].union(part.missing(at / 8, 1));
                        at |= 4095;
                    } else if (!ClusterMap.bit(part.bytes, at)) {
                        found[0] = Outcome.failed(first + at, name).at(Places.range(geometry, bitmap, (first + at) / 8, 1));
                    }
                }
            });
        }
        return found[0] != null ? found[0] : missing[0].isEmpty() ? Outcome.passed() : Outcome.unread(missing[0]);
    }

    /** Each block of $SDS against its copy; part of a full check. */
    void secure() {
        FileRecord secure = FileRecord.of(table, 9);
        FileStream stream = secure == null ? null : secure.stream(AttributeType.DATA, "$SDS").filter(s -> !s.resident && s.sized).orElse(null);
        if (stream == null || stream.real > 1L << 34) {
            return;
        }
        for (long block = 0; block + SDS_BLOCK < stream.real; block += 2L * SDS_BLOCK) {
            long from = block;
            int length = (int) Math.min(SDS_BLOCK, stream.real - block - SDS_BLOCK);
            out.check("ntfs.secure-duplicate", Places.range(geometry, stream, from + SDS_BLOCK, length), () -> same(stream, from, length));
        }
    }

    private Outcome same(FileStream stream, long from, int length) {
        StreamPart one = StreamPart.read(table.image(), geometry, stream.runs, from, length);
        StreamPart two = StreamPart.read(table.image(), geometry, stream.runs, from + SDS_BLOCK, length);
        SectorRanges missing = one.missing(0, length).union(two.missing(0, length));
        for (int at = 0; at < length; at += FixedBlock.STRIDE) {
            int n = Math.min(FixedBlock.STRIDE, length - at);
            if (one.isRead(at, n) && two.isRead(at, n)) {
                int differs = Arrays.mismatch(one.bytes, at, at + n, two.bytes, at, at + n);
                if (differs >= 0) {
                    long byteAt = at + differs;
                    return Outcome.failed(hex(two.bytes[(int) byteAt] & 0xFF), hex(one.bytes[(int) byteAt] & 0xFF)).with("offset", from + byteAt)
                            .at(Places.range(geometry, stream, from + SDS_BLOCK + byteAt, 1));
                }
            }
        }
        return missing.isEmpty() ? Outcome.passed() : Outcome.unread(missing);
    }
}
