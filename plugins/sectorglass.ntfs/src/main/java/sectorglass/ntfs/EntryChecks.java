package sectorglass.ntfs;

import java.util.Map;

import sectorglass.image.ByteRange;
import sectorglass.verify.Mark;
import sectorglass.verify.Phrase;
import sectorglass.verify.Severity;

/** The rules between folder indexes and file records: what entries lead to, names that no index holds, stale sizes. Part of a full check. */
final class EntryChecks {
    private static final String RECORD = "ntfs.index.entry-record";
    private static final String NAME = "ntfs.index.entry-name";
    private static final String SIZE = "ntfs.index.sizes";
    /** Drivers do not keep the sizes of system files in the root's index. */
    private static final int FIRST_USER = 16;

    private final FileTable table;
    private final RecordFacts facts;
    private final Tally records;
    private final Tally references;
    private final Tally tally;
    /** Hashes of the names that records hold, and of those that indexes hold. */
    private final LongSet held = new LongSet();
    private final LongSet listed = new LongSet();

    EntryChecks(FileTable table, RecordFacts facts, Tally records, Tally references, Tally tally) {
        this.table = table;
        this.facts = facts;
        this.records = records;
        this.references = references;
        this.tally = tally;
        tally.applied(RECORD, NAME, SIZE, "ntfs.name-in-index");
        for (int i = 0; i < facts.names; i++) {
            held.add(facts.nameHash[i]);
        }
    }

    /** Judges an entry; {@code place} is its image byte. */
    void entry(long folder, FixedBlock view, int at, int nameAt, int units, long place) {
        long reference = view.u64(at);
        long number = reference & RecordView.NUMBER_MASK;
        int sequence = (int) (reference >>> 48);
        long hash = RecordFacts.hash(number, folder, view, nameAt, units);
        listed.add(hash);
        int state = facts.state(number);
        if ((state & (RecordFacts.USABLE | RecordFacts.UNREAD)) == RecordFacts.UNREAD) {
            return;
        }
        String why = number >= facts.records() ? "state.absent" : (state & RecordFacts.DAMAGED) != 0 ? "state.damaged"
                : (state & RecordFacts.IN_USE) == 0 ? "state.free" : (state & RecordFacts.BASE) == 0 ? "state.extension"
                : sequence != 0 && facts.sequence(number) != sequence ? "state.sequence" : null;
        if (why != null) {
            failed(RECORD, folder, place, 8, number + "/" + sequence, Phrase.of(why), view.utf16(nameAt, units), records.mark(number), null);
        } else if (!held.contains(hash)) {
            if ((state & RecordFacts.UNREAD) == 0) {
                Mark cause = references.mark(number) != null ? references.mark(number) : records.mark(number);
                failed(NAME, folder, place + 16, 2, number, "a record with that name", view.utf16(nameAt, units), cause, null);
            }
        } else if (number >= FIRST_USER && (view.s32(at + 16 + 0x38) & 0x10000000) == 0) {
            long size = view.u64(at + 16 + 0x30);
            if (facts.size(number) >= 0 && size != facts.size(number)) {
                failed(SIZE, folder, place + 16 + 0x30, 8, size, facts.size(number), view.utf16(nameAt, units), records.mark(number), null);
            }
        }
    }

    private void failed(String rule, long folder, long place, int length, Object stored, Object computed, String name, Mark cause,
            Severity severity) {
        ByteRange where = new ByteRange(Math.max(0, place), length);
        tally.failed(rule, new Tally.Failure(folder, where, where, stored, computed, Map.of("name", Show.name(name)), severity, cause));
    }

    /** Names of files in use that the index of their folder does not hold; folders whose index is not whole are left out. */
    void missingNames(java.util.BitSet wholeIndexes) {
        for (int i = 0; i < facts.names; i++) {
            int parent = facts.nameParent[i];
            if (parent >= 0 && wholeIndexes.get(parent) && !listed.contains(facts.nameHash[i])
                    && (facts.nameParentSequence[i] == 0 || facts.sequence(parent) == facts.nameParentSequence[i])) {
                String name = name(facts.nameRecord[i], facts.nameOffset[i]);
                long at = Math.max(0, table.byteAt(facts.nameRecord[i], Math.max(0, facts.nameOffset[i])));
                ByteRange where = new ByteRange(at, 8);
                tally.failed("ntfs.name-in-index", new Tally.Failure(facts.nameRecord[i], where, where, parent, "an entry", Map.of("name", name),
                        null, records.mark(facts.nameRecord[i])));
            }
        }
    }

    private String name(int record, int offset) {
        RecordView view = new RecordView();
        NameValue name = offset >= 0 && table.load(record, view) ? NameValue.at(view, offset, view.size - offset) : null;
        return name == null ? "record " + record : Show.name(name.name());
    }
}
