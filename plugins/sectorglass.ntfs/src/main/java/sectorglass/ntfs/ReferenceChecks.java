package sectorglass.ntfs;

import java.util.List;
import java.util.Map;

import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.verify.Mark;
import sectorglass.verify.Phrase;

/** The rules between records: folders, circles of folders, extension records, attribute lists, numbers of names. Part of a full check. */
final class ReferenceChecks {
    private static final String PARENT = "ntfs.parent-reference";
    private static final int MOST_STEPS = 512;

    private final FileTable table;
    private final RecordFacts facts;
    private final Tally records;
    private final Tally tally;

    /** @param records what the rules of single records found: the cause of much that follows */
    ReferenceChecks(FileTable table, RecordFacts facts, Tally records, Tally tally) {
        this.table = table;
        this.facts = facts;
        this.records = records;
        this.tally = tally;
        tally.applied(PARENT, "ntfs.parent-cycle");
    }

    void run(List<Long> withList, Progress progress) {
        parents(progress);
        cycles();
        extensions(progress);
        lists(withList, progress);
    }

    private void parents(Progress progress) {
        for (int i = 0; i < facts.names; i++) {
            if ((i & 0xFFFF) == 0) {
                progress.checkCancelled();
            }
            long parent = facts.nameParent[i];
            int sequence = facts.nameParentSequence[i];
            int state = facts.state(parent);
            boolean good = (state & (RecordFacts.USABLE | RecordFacts.IN_USE | RecordFacts.FOLDER))
                    == (RecordFacts.USABLE | RecordFacts.IN_USE | RecordFacts.FOLDER)
                    && (sequence == 0 || facts.sequence(parent) == sequence);
            boolean unread = (state & (RecordFacts.USABLE | RecordFacts.UNREAD)) == RecordFacts.UNREAD;
            if (!good && !unread) {
                parent(i, parent, sequence, state);
            }
        }
    }

    private void parent(int name, long parent, int sequence, int state) {
        Phrase why = Phrase.of(parent >= facts.records() ? "state.absent" : (state & RecordFacts.DAMAGED) != 0 ? "state.damaged"
                : (state & RecordFacts.USABLE) == 0 || (state & RecordFacts.IN_USE) == 0 ? "state.free"
                : (state & RecordFacts.FOLDER) == 0 ? "state.file" : "state.sequence");
        tally.failed(PARENT, failure(facts.nameRecord[name], Math.max(0, facts.nameOffset[name]), 8, parent + "/" + sequence, why,
                Map.of(), records.mark(parent)));
    }

    private Tally.Failure failure(long record, int offset, int length, Object stored, Object computed, Map<String, Object> values, Mark cause) {
        long at = Math.max(0, table.byteAt(record, offset));
        long start = Math.max(0, table.address(record));
        return new Tally.Failure(record, new ByteRange(at, length), new ByteRange(start, table.geometry().recordBytes()), stored, computed,
                values, null, cause);
    }

    /** Follows the first name of each folder; every folder is walked once. */
    private void cycles() {
        int n = facts.records();
        int[] parent = new int[n];
        java.util.Arrays.fill(parent, -1);
        for (int i = facts.names - 1; i >= 0; i--) {
            int record = facts.nameRecord[i];
            if (record < n && facts.is(record, RecordFacts.FOLDER)) {
                parent[record] = facts.nameParent[i];
            }
        }
        byte[] done = new byte[n];
        done[Math.min(n - 1, VolumeFacts.ROOT)] = 2;
        for (int folder = 0; folder < n; folder++) {
            int at = folder;
            int steps = 0;
            while (at >= 0 && at < n && done[at] == 0 && steps++ < n) {
                done[at] = 1;
                at = parent[at];
            }
            boolean circle = at >= 0 && at < n && done[at] == 1;
            for (int back = folder; back >= 0 && back < n && done[back] == 1; back = parent[back]) {
                done[back] = 2;
            }
            if (circle) {
                tally.failed("ntfs.parent-cycle", failure(at, 0, 4, "a circle", "a way to record 5 within " + MOST_STEPS + " folders",
                        Map.of(), records.mark(at)));
            }
        }
    }

    private void extensions(Progress progress) {
        RecordView view = new RecordView();
        boolean applied = false;
        for (int number = 0; number < facts.records(); number++) {
            if (!facts.is(number, RecordFacts.USABLE | RecordFacts.IN_USE) || facts.is(number, RecordFacts.BASE)) {
                continue;
            }
            progress.checkCancelled();
            if (!table.load(number, view) || !view.usable()) {
                continue;
            }
            applied = true;
            long base = view.baseNumber();
            int state = facts.state(base);
            if ((state & (RecordFacts.USABLE | RecordFacts.UNREAD)) == RecordFacts.UNREAD) {
                continue;
            }
            String why = (state & RecordFacts.DAMAGED) != 0 ? "state.damaged" : (state & RecordFacts.IN_USE) == 0 ? "state.free"
                    : (state & RecordFacts.BASE) == 0 ? "state.extension"
                    : view.baseSequence() != 0 && facts.sequence(base) != view.baseSequence() ? "state.sequence" : null;
            if (why != null) {
                tally.failed("ntfs.base-reference", failure(number, RecordView.BASE, 8, base + "/" + view.baseSequence(), Phrase.of(why),
                        Map.of(), records.mark(base)));
            }
        }
        if (applied) {
            tally.applied("ntfs.base-reference");
        }
    }

    private void lists(List<Long> withList, Progress progress) {
        if (!withList.isEmpty()) {
            tally.applied("ntfs.attribute.list-target");
        }
        RecordView base = new RecordView();
        for (Long number : withList) {
            progress.checkCancelled();
            if (!table.load(number, base) || !base.usable() || !base.inUse()) {
                continue;
            }
            base.rewind();
            while (base.nextAttribute()) {
                if (base.type() == AttributeType.ATTRIBUTE_LIST) {
                    int at = base.resident() ? Math.max(0, base.valueOffset()) : base.attribute;
                    for (AttributeList.Entry entry : AttributeList.of(table.image(), table.geometry(), base)) {
                        target(number, base.sequence(), entry, base.resident() ? at + entry.offset() + 0x10 : at);
                    }
                }
            }
        }
    }

    private void target(long owner, int sequence, AttributeList.Entry entry, int offset) {
        RecordView view = new RecordView();
        int state = facts.state(entry.record());
        if ((state & (RecordFacts.USABLE | RecordFacts.UNREAD)) == RecordFacts.UNREAD) {
            return;
        }
        String why = (state & RecordFacts.DAMAGED) != 0 ? "state.damaged" : (state & RecordFacts.IN_USE) == 0 ? "state.free" : null;
        if (why == null && table.load(entry.record(), view) && view.usable()) {
            boolean own = entry.record() == owner;
            why = !own && (view.baseNumber() != owner || view.baseSequence() != sequence) ? "state.base"
                    : holds(view, entry) ? null : view.end() == RecordView.End.UNKNOWN ? null : "state.absent";
        }
        if (why != null) {
            tally.failed("ntfs.attribute.list-target", failure(owner, offset, 8, AttributeType.name(entry.type()) + " in record "
                    + entry.record(), Phrase.of(why), Map.of(), records.mark(entry.record())));
        }
    }

    private static boolean holds(RecordView view, AttributeList.Entry entry) {
        view.rewind();
        while (view.nextAttribute()) {
            if (view.type() == entry.type() && view.attributeId() == entry.id() && view.named(entry.name())
                    && (view.resident() || view.lowestVcn() == entry.lowestVcn())) {
                return true;
            }
        }
        return false;
    }
}
