package sectorglass.ntfs;

import java.util.BitSet;

import sectorglass.disk.Level;
import sectorglass.disk.VolumeSite;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;

/** All rules of a volume, in the order in which one finding explains another. */
final class NtfsChecks {
    private static final int QUICK_RECORDS = 16;

    private final VolumeSite site;
    private final BootFound boot;
    private final TableSource source;
    private FileTable table;

    NtfsChecks(VolumeSite site, BootFound boot, TableSource source) {
        this.site = site;
        this.boot = boot;
        this.source = source;
    }

    void run(Level level, Checks out, Progress progress) {
        Mark total = new BootChecks(site, boot).run(out);
        boolean full = level == Level.FULL;
        TableSource.State state = full ? source.searched(progress) : source.now();
        ClusterMap map = state.clusters();
        table = state.table();
        new TableChecks(table).run(out);
        if (table.records() == 0) {
            return;
        }
        ByteRange where = new ByteRange(Math.max(0, table.address(0)), table.geometry().recordBytes());
        RecordFacts facts = full ? new RecordFacts() : null;
        Claims claims = full ? new Claims() : null;
        Tally tally = new Tally();
        RecordBitmap bitmap = new RecordBitmap(table);
        RecordChecks records = new RecordChecks(table, bitmap, facts, claims, tally);
        table.scan(0, full ? table.records() : QUICK_RECORDS, records::record, progress);
        records.report(out, where);
        SystemChecks system = new SystemChecks(table, map, tally, out);
        system.quick(total);
        if (full) {
            full(out, where, facts, tally, records, progress);
            system.secure();
            new ClusterChecks(table, map, claims, out).run(total, tally, records.unread(), progress);
        } else {
            rootIndex(out, where);
        }
    }

    private void rootIndex(Checks out, ByteRange where) {
        FileRecord root = FileRecord.of(table, VolumeFacts.ROOT);
        if (root != null && root.inUse()) {
            IndexChecks indexes = new IndexChecks(table, new Collation(table), null, new Tally());
            indexes.folder(VolumeFacts.ROOT, root);
            indexes.report(out, where);
        }
    }

    private void full(Checks out, ByteRange where, RecordFacts facts, Tally tally, RecordChecks records, Progress progress) {
        Tally references = new Tally();
        new ReferenceChecks(table, facts, tally, references).run(records.withList(), progress);
        references.report(out, where, java.util.Map.of());
        Tally found = new Tally();
        EntryChecks entries = new EntryChecks(table, facts, tally, references, found);
        Tally tree = new Tally();
        IndexChecks indexes = new IndexChecks(table, new Collation(table), entries, tree);
        BitSet whole = new BitSet();
        for (int number = 0; number < facts.records(); number++) {
            if (facts.is(number, RecordFacts.USABLE | RecordFacts.IN_USE | RecordFacts.FOLDER | RecordFacts.BASE)) {
                progress.checkCancelled();
                progress.at("folders", number, facts.records());
                FileRecord folder = FileRecord.of(table, number);
                if (folder != null && indexes.folder(number, folder)) {
                    whole.set(number);
                }
            }
        }
        indexes.report(out, where);
        entries.missingNames(whole);
        found.report(out, where, java.util.Map.of());
    }
}
