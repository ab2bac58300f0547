package sectorglass.ntfs;

import java.util.BitSet;
import java.util.HashSet;
import java.util.Set;

import sectorglass.image.Progress;

/** Looks in the indexes of all folders for files whose records are lost: the entries still tell name, size and times, not the place. */
final class LostFiles {
    private static final int FOLDER_BIT = 0x10000000;

    private final FileTable table;
    private final TreeScan scan;
    private final Set<String> seen = new HashSet<>();

    LostFiles(FileTable table, TreeScan scan) {
        this.table = table;
        this.scan = scan;
    }

    void find(BitSet folders, BitSet deleted, Progress progress) {
        BitSet all = (BitSet) folders.clone();
        for (int number = all.nextSetBit(0); number >= 0; number = all.nextSetBit(number + 1)) {
            progress.checkCancelled();
            if (deleted.get(number)) {
                continue;
            }
            FileRecord folder = FileRecord.of(table, number);
            if (folder != null) {
                new DirectoryIndex(table, folder).entries(this::entry, Long.MAX_VALUE);
            }
        }
    }

    private void entry(FixedBlock block, int at, int key, int keyLength) {
        long reference = block.u64(at);
        long number = reference & RecordView.NUMBER_MASK;
        if (!scan.lost(number)) {
            return;
        }
        NameValue name = NameValue.at(block, key, keyLength);
        if (name == null || name.namespace() == NameValue.DOS || !seen.add(number + "/" + name.parent() + "/" + name.name())) {
            return;
        }
        boolean folder = (name.attributes() & FOLDER_BIT) != 0;
        if (scan.entryOf(number) < 0) {
            scan.learned((int) number, (int) (reference >>> 48), folder);
        }
        scan.entry(number, name.name(), folder, false, folder ? 0 : name.real(), TreeScan.millis(name.modified()), name.parent(),
                name.parentSequence());
    }
}
