package sectorglass.ntfs;

import java.util.List;
import java.util.Locale;

import com.code_intelligence.jazzer.api.FuzzedDataProvider;
import com.code_intelligence.jazzer.junit.FuzzTest;

import sectorglass.disk.Allocation;
import sectorglass.disk.Content;
import sectorglass.disk.Extent;
import sectorglass.disk.FileTree;
import sectorglass.disk.Files;
import sectorglass.disk.Level;
import sectorglass.disk.ReadOrder;
import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.SectorRange;
import sectorglass.verify.Checks;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;

/** Whatever the bytes say: the readers end, stay in bounds, and what they give agrees with itself. */
class NtfsFuzzTest {
    private static final RuleBook BOOK = new RuleBook(List.of(new NtfsRules()), Locale.ENGLISH);
    /** Longest that one volume of 3 MiB may take, on a machine busy with other work. */
    private static final long MOST_NANOS = 20_000_000_000L;
    private static ShapesVolume volume;

    private static void hold(boolean statement, String what) {
        if (!statement) {
            throw new IllegalStateException(what);
        }
    }

    @FuzzTest(maxDuration = "4m")
    void recordsAreWalkedToAnEnd(FuzzedDataProvider data) {
        int size = data.pickValue(new int[] {512, 1024, 2048, 4096});
        byte[] record = java.util.Arrays.copyOf(data.consumeRemainingAsBytes(), size);
        RecordView view = new RecordView();
        view.load(record, 0, size, null, 0);
        if (!view.usable()) {
            return;
        }
        view.rewind();
        int steps = 0;
        while (view.nextAttribute()) {
            steps++;
            hold(view.attribute >= 0 && view.next <= size, "attribute outside the record");
            view.attributeName();
            view.named(DirectoryIndex.I30);
            NameValue.of(view);
            if (view.resident()) {
                int at = view.valueOffset();
                hold(at < 0 || at + (long) view.valueLength() <= size, "value outside the record");
            } else {
                RunList runs = new RunList();
                runs.add(view, view.runsOffset(), view.next, Math.max(0, view.lowestVcn()));
            }
        }
        hold(steps <= size / 24, "too many attributes");
    }

    @FuzzTest(maxDuration = "4m")
    void attributeListsEnd(FuzzedDataProvider data) {
        byte[] bytes = data.consumeRemainingAsBytes();
        int end = 0;
        for (AttributeList.Entry entry : AttributeList.parse(bytes, bytes.length)) {
            hold(entry.offset() >= end && entry.offset() + 0x1A <= bytes.length, "entry out of order or outside");
            end = entry.offset() + 0x1A;
        }
    }

    @FuzzTest(maxDuration = "4m")
    void runsGivePiecesWithoutGaps(FuzzedDataProvider data) {
        Geometry geometry = new Geometry(0, 512, data.pickValue(new int[] {512, 4096, 65536}), 1024, 4096, data.consumeLong(1, 1L << 40), 4, 2, 0);
        FileStream stream = new FileStream(AttributeType.DATA, "");
        stream.sized = data.consumeBoolean();
        stream.flags = data.consumeBoolean() ? FileStream.COMPRESSED : 0;
        stream.unit = data.consumeInt(0, 13);
        stream.allocated = data.consumeLong() & Long.MAX_VALUE;
        stream.real = data.consumeLong() & Long.MAX_VALUE;
        stream.initialised = Math.min(data.consumeLong() & Long.MAX_VALUE, stream.real);
        long lowest = data.consumeBoolean() ? 0 : data.consumeLong() & Long.MAX_VALUE;
        byte[] bytes = data.consumeRemainingAsBytes();
        FixedBlock block = new FixedBlock();
        block.begin(java.util.Arrays.copyOf(bytes, bytes.length + 16), 0, bytes.length + 16);
        long covered = stream.runs.add(block, 0, bytes.length, lowest);
        long vcn = lowest;
        for (int i = 0; i < stream.runs.runs(); i++) {
            hold(stream.runs.vcn(i) == vcn && stream.runs.count(i) > 0 && stream.runs.lcn(i) >= RunList.HOLE, "runs do not follow each other");
            vcn += stream.runs.count(i);
        }
        hold(vcn - lowest == covered, "covered clusters are miscounted");
        long at = 0;
        for (Extent extent : StreamExtents.of(geometry, stream)) {
            hold(extent.offset() == at && extent.length() > 0, "a gap before " + extent);
            at = extent.end();
            if (extent.kind() == Extent.Kind.PLAIN || extent.kind() == Extent.Kind.COMPRESSED) {
                hold(extent.imageByte() >= 0 && extent.imageByte() + extent.stored() <= geometry.clusters() * geometry.clusterBytes(),
                        "piece outside the volume");
            }
        }
        hold(!stream.sized || at == stream.real, "pieces do not reach the end");
    }

    @FuzzTest(maxDuration = "4m")
    void indexChainsEnd(FuzzedDataProvider data) {
        int header = data.consumeBoolean() ? DirectoryIndex.ROOT_HEADER : DirectoryIndex.BLOCK_HEADER;
        byte[] bytes = data.consumeRemainingAsBytes();
        FixedBlock block = new FixedBlock();
        block.begin(bytes, 0, Math.min(bytes.length, FixedBlock.MAX_BYTES));
        int[] steps = {0};
        DirectoryIndex.walk(block, header, (b, at, key, length) -> {
            NameValue name = NameValue.at(b, key, length);
            hold(name == null || name.name().length() <= 255, "name too long");
            steps[0]++;
        });
        hold(steps[0] <= bytes.length / 16, "too many entries");
    }

    @FuzzTest(maxDuration = "4m")
    void unitsDecompressOrAreRefused(FuzzedDataProvider data) {
        byte[] out = new byte[data.pickValue(new int[] {8192, 65536})];
        byte[] bytes = data.consumeRemainingAsBytes();
        int good = Lznt1.unit(bytes, bytes.length, out);
        hold(good >= 0 && good <= out.length && good % 4096 == 0, "a part of a chunk counts as good");
        byte[] cut = new byte[out.length];
        int less = Lznt1.unit(bytes, bytes.length / 2, cut);
        hold(less == cut.length || java.util.Arrays.equals(cut, 0, Math.min(less, good), out, 0, Math.min(less, good)),
                "the first half gives other bytes");
    }

    @FuzzTest(maxDuration = "20m")
    void aChangedVolumeIsUsedWhole(FuzzedDataProvider data) {
        if (volume == null) {
            volume = new ShapesVolume();
        }
        long begun = System.nanoTime();
        use(volume.changed(data));
        hold(System.nanoTime() - begun < MOST_NANOS, "a small volume took longer than 20 seconds");
    }

    private static void use(ShapesVolume image) {
        NtfsProvider provider = new NtfsProvider();
        var claim = provider.recognise(new VolumeSite(image, image.all(), null));
        if (claim.isEmpty()) {
            return;
        }
        NtfsVolume opened = (NtfsVolume) provider.open(claim.get());
        opened.info();
        opened.roles();
        opened.witnesses();
        opened.structures().forEach(s -> s.reader().read(image));
        Checks checks = new Checks();
        opened.check(Level.FULL, checks, Progress.NONE);
        Findings.of(checks, BOOK, image.sectorSize());
        Files files = opened.capability(Files.class).orElseThrow();
        FileTree tree = files.tree(Progress.NONE);
        int[] seen = {0};
        tree.walk(tree.root(), (entry, depth) -> {
            seen[0]++;
            hold(tree.find(tree.path(entry)).isPresent(), "a path does not lead back");
            tree.entry(entry).streams().forEach(stream -> read(files.content(entry, stream.name())));
            return true;
        });
        hold(tree.size() == seen[0], "an entry does not hang below the root");
        Allocation allocation = opened.capability(Allocation.class).orElseThrow();
        allocation.metadata();
        allocation.owners(new SectorRange(32, 64), Progress.NONE);
        opened.capability(ReadOrder.class).orElseThrow().stages(Progress.NONE);
    }

    private static void read(Content content) {
        if (content == null) {
            return;
        }
        content.state();
        content.doubts();
        byte[] buffer = new byte[1 << 16];
        long end = Math.min(content.bytes(), 1 << 18);
        long missing = 0;
        for (long at = 0; at < end; at += buffer.length) {
            for (ByteRange range : content.read(at, buffer, 0, (int) Math.min(buffer.length, content.bytes() - at))) {
                missing += range.length();
            }
        }
        if (content.bytes() >= 0 && content.bytes() <= end) {
            long named = content.missing().stream().mapToLong(ByteRange::length).sum();
            hold(missing == named, "reading misses " + missing + " bytes, named are " + named);
        }
    }
}
