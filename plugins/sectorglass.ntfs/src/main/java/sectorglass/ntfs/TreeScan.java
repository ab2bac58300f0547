package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;

import sectorglass.disk.CompactTree;
import sectorglass.disk.CompactTreeBuilder;
import sectorglass.image.Progress;
import sectorglass.image.SectorRanges;

/**
 * Builds the folder tree from the file records in one pass: every record names its folder itself, so that damaged folder indexes do no
 * harm. Records with an attribute list are read whole afterwards; records that are lost are looked for in the indexes of all folders,
 * which still tell name, size and times.
 */
final class TreeScan {
    /** Records beyond this are not listed: their numbers alone would fill the memory. */
    private static final int MOST_RECORDS = 1 << 27;
    private static final int FIRST_USER = 16;

    private final FileTable table;
    private final CompactTreeBuilder builder = new CompactTreeBuilder();
    private final RecordBitmap bitmap;
    /** By record: id of its first entry, or -1. */
    private int[] entryOf = new int[1024];
    /** By record: its sequence number; 0 where it is not known. */
    private char[] sequences = new char[1024];
    private final BitSet folders = new BitSet();
    private final BitSet deleted = new BitSet();
    /** Records that hold or held a file but cannot be used. */
    private final BitSet lost = new BitSet();
    private final List<Long> complex = new ArrayList<>();
    /** By entry: the folder its name names. */
    private int[] parentOf = new int[1024];
    private char[] parentSequence = new char[1024];
    private final NameChoice names = new NameChoice();
    private final SectorRanges.Builder unread = new SectorRanges.Builder();
    private long lastUnread = -1;

    TreeScan(FileTable table) {
        this.table = table;
        this.bitmap = new RecordBitmap(table);
        Arrays.fill(entryOf, -1);
    }

    CompactTree build(CompactTree.Details details, Progress progress) {
        long records = Math.min(MOST_RECORDS, table.records());
        if (records < table.records()) {
            builder.remark("Only the first " + records + " of " + table.records() + " file records are listed.");
        }
        table.scan(0, records, this::record, progress);
        for (Long number : complex) {
            progress.checkCancelled();
            whole(number);
        }
        builder.unread(unread.build());
        if (!lost.isEmpty()) {
            new LostFiles(table, this).find(folders, deleted, progress);
        }
        parents();
        unnamed();
        return builder.build(details);
    }

    private void record(RecordView view, long address) {
        int number = (int) view.number;
        if (view.anyUnread()) {
            unread(view, address);
        }
        if (!view.usable()) {
            Boolean used = bitmap.inUse(number);
            boolean blank = view.fix() != FixedBlock.Fix.UNREAD && view.s32(0) == 0;
            if (Boolean.TRUE.equals(used) || used == null && !blank || !Boolean.FALSE.equals(used) && view.fix() == FixedBlock.Fix.UNREAD) {
                lost.set(number);
            }
            return;
        }
        grow(number);
        sequences[number] = (char) view.sequence();
        if (!view.isBase()) {
            return;
        }
        folders.set(number, view.directory());
        deleted.set(number, !view.inUse());
        scan(view);
    }

    private void unread(RecordView view, long address) {
        int sector = table.image().sectorSize();
        for (int at = 0; at < view.size && address >= 0; at += FixedBlock.STRIDE) {
            long lba = (address + at) / sector;
            if (view.strideUnread(at >> 9) && lba > lastUnread) {
                unread.add(lba, 1);
                lastUnread = lba;
            }
        }
    }

    /** Takes names, size and time of a record; one with an attribute list, or with bytes missing, is put aside. */
    private void scan(RecordView view) {
        names.clear();
        long bytes = view.directory() ? 0 : -1;
        long modified = Long.MIN_VALUE;
        boolean data = false;
        view.rewind();
        while (view.nextAttribute()) {
            switch (view.type()) {
                case AttributeType.STANDARD_INFORMATION -> modified = millis(view, modified);
                case AttributeType.ATTRIBUTE_LIST -> {
                    complex.add(view.number);
                    return;
                }
                case AttributeType.FILE_NAME -> names.take(view);
                case AttributeType.DATA -> {
                    if (view.nameLength() == 0) {
                        data = true;
                        bytes = size(view, bytes);
                    }
                }
                default -> { }
            }
        }
        if (!data && view.end() == RecordView.End.MARK && bytes < 0) {
            bytes = 0;
        }
        add(view.number, view.directory(), !view.inUse(), bytes, modified, view.end() != RecordView.End.MARK);
    }

    private static long millis(RecordView view, long otherwise) {
        int at = view.resident() ? view.valueOffset() : -1;
        return at < 0 || view.valueLength() < 0x30 || !view.has(at, 0x20) ? otherwise : millis(view.u64(at + 8));
    }

    static long millis(long ticks) {
        return ticks <= 0 ? Long.MIN_VALUE : Math.floorDiv(ticks - NameValue.UNIX_EPOCH, 10_000L);
    }

    private static long size(RecordView view, long otherwise) {
        if (view.resident()) {
            return view.valueOffset() < 0 ? otherwise : view.valueLength();
        }
        return view.has(view.attribute, 0x40) && view.lowestVcn() == 0 && view.realSize() >= 0 ? view.realSize() : otherwise;
    }

    /** A file whose attributes stand in several records. */
    private void whole(long number) {
        FileRecord file = FileRecord.of(table, number);
        if (file == null) {
            return;
        }
        names.clear();
        file.names.forEach(names::take);
        long bytes = file.stream(AttributeType.DATA, "").map(FileStream::size).orElse(file.directory() || !file.incomplete ? 0L : -1L);
        long modified = file.standard != null && file.standard.length >= 0x30 ? millis(ticks(file.standard, 8)) : Long.MIN_VALUE;
        add(number, file.directory(), !file.inUse(), bytes, modified, file.incomplete);
    }

    static long ticks(byte[] bytes, int at) {
        long value = 0;
        for (int i = 7; i >= 0; i--) {
            value = value << 8 | bytes[at + i] & 0xFF;
        }
        return value;
    }

    private void add(long number, boolean folder, boolean gone, long bytes, long modified, boolean incomplete) {
        if (number == VolumeFacts.ROOT) {
            int id = entry(number, ".", true, gone, 0, modified, number, 0);
            builder.root(id);
            return;
        }
        for (int i = 0; i < names.count(); i++) {
            entry(number, names.name(i), folder, gone, bytes, modified, names.parent(i), names.parentSequence(i));
        }
        if (names.count() == 0 && !gone && (number >= FIRST_USER || incomplete)) {
            lost.set((int) number);
        }
    }

    /** Adds an entry for a name of a record. */
    int entry(long number, String name, boolean folder, boolean gone, long bytes, long modified, long parent, int sequence) {
        int id = builder.add(name, folder, gone, bytes, modified, number, number);
        grow((int) number);
        if (entryOf[(int) number] < 0) {
            entryOf[(int) number] = id;
        }
        if (id >= parentOf.length) {
            parentOf = Arrays.copyOf(parentOf, id * 3 / 2);
            parentSequence = Arrays.copyOf(parentSequence, parentOf.length);
        }
        parentOf[id] = parent < 0 || parent >= MOST_RECORDS ? -1 : (int) parent;
        parentSequence[id] = (char) sequence;
        return id;
    }

    private void grow(int number) {
        if (number >= entryOf.length) {
            int old = entryOf.length;
            int larger = (int) Math.min(MOST_RECORDS, number * 3L / 2 + 16);
            entryOf = Arrays.copyOf(entryOf, larger);
            sequences = Arrays.copyOf(sequences, larger);
            Arrays.fill(entryOf, old, larger, -1);
        }
    }

    boolean lost(long number) {
        return number < MOST_RECORDS && lost.get((int) number);
    }

    BitSet lost() {
        return lost;
    }

    int entryOf(long number) {
        return number >= 0 && number < entryOf.length ? entryOf[(int) number] : -1;
    }

    /** Notes what an index says of a lost record: its sequence number, and whether it is a folder. */
    void learned(int number, int sequence, boolean folder) {
        grow(number);
        sequences[number] = (char) sequence;
        folders.set(number, folder);
        deleted.clear(number);
    }

    /** Files in use whose name stands nowhere that was read. */
    private void unnamed() {
        for (int number = lost.nextSetBit(0); number >= 0; number = lost.nextSetBit(number + 1)) {
            boolean known = number < sequences.length && sequences[number] != 0;
            if (entryOf(number) >= 0 || !known && !Boolean.TRUE.equals(bitmap.inUse(number))) {
                continue;
            }
            FileRecord file = FileRecord.of(table, number);
            if (file == null && known) {
                continue; // an extension record
            }
            long bytes = file == null ? -1 : file.stream(AttributeType.DATA, "").map(FileStream::size).orElse(-1L);
            entry(number, "file record " + number, file != null && file.directory(), false, bytes, Long.MIN_VALUE, -1, 0);
        }
    }

    private void parents() {
        for (int id = 0, n = builder.size(); id < n; id++) {
            int parent = parentOf[id];
            if (parent < 0) {
                continue;
            }
            int folder = entryOf(parent);
            if (folder < 0 && (lost.get(parent) || parent == VolumeFacts.ROOT)) {
                folder = placeholder(parent, parentSequence[id]);
                n = builder.size();
            }
            if (folder >= 0 && fits(parent, parentSequence[id])) {
                builder.parent(id, folder);
            }
        }
    }

    /** A folder whose record is lost and whose name stands nowhere: its children show that it was there. */
    private int placeholder(int number, int sequence) {
        boolean root = number == VolumeFacts.ROOT;
        int id = entry(number, root ? "." : "folder record " + number, true, false, 0, Long.MIN_VALUE, -1, 0);
        learned(number, sequence, true);
        if (root) {
            builder.root(id);
        }
        return id;
    }

    /** Whether a record is the folder that a name means: used again since then, it carries another sequence number. */
    private boolean fits(int parent, int sequence) {
        int stored = parent < sequences.length ? sequences[parent] : 0;
        return folders.get(parent) && (sequence == 0 || stored == 0 || stored == sequence
                || deleted.get(parent) && (stored == sequence + 1 || sequence == 0xFFFF && stored == 1));
    }
}
