package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.verify.Checks;
import sectorglass.verify.Mark;
import sectorglass.verify.Outcome;
import sectorglass.verify.Severity;

/**
 * Verdicts over a whole table: a rule that fails for neighbouring records is one finding with a count and a list, a rule that holds for
 * all of them is one verdict. Memory is bounded however many records fail.
 */
final class Tally {
    /** Failing records this near to each other are one group: one bad region. */
    private static final long NEAR = 64;
    private static final int MOST_GROUPS = 200;
    private static final int MOST_MEMBERS = 1000;
    private static final int SHOWN = 12;

    /** One failure of a rule at a record. */
    record Failure(long record, ByteRange where, ByteRange structure, Object stored, Object computed, Map<String, Object> values,
            Severity severity, Mark cause) { }

    private static final class Group {
        final Failure first;
        final List<Failure> others = new ArrayList<>();
        final Set<Long> records = new LinkedHashSet<>();
        long count = 1;
        long last;

        Group(Failure first) {
            this.first = first;
            this.last = first.record();
            records.add(first.record());
        }
    }

    private final Map<String, List<Group>> failed = new TreeMap<>();
    private final Set<String> applied = new LinkedHashSet<>();
    private final Map<Long, Mark> marks = new HashMap<>();

    /** Notes that a rule was applied: without a failure it passes. */
    void applied(String... rules) {
        applied.addAll(List.of(rules));
    }

    void failed(String rule, Failure failure) {
        List<Group> groups = failed.computeIfAbsent(rule, key -> new ArrayList<>());
        Group last = groups.isEmpty() ? null : groups.get(groups.size() - 1);
        if (last != null && (failure.record() - last.last <= NEAR && failure.record() >= last.last && last.first.cause() == failure.cause()
                || groups.size() >= MOST_GROUPS)) {
            last.count++;
            last.last = failure.record();
            if (last.records.size() < MOST_MEMBERS) {
                last.records.add(failure.record());
                last.others.add(failure);
            }
        } else {
            groups.add(new Group(failure));
        }
    }

    /** Whether some rule failed for the record; known after {@link #report}. */
    Mark mark(long record) {
        return marks.get(record);
    }

    /** Any failure at all, the first one reported; null where nothing failed. */
    Mark any() {
        return marks.isEmpty() ? null : marks.values().iterator().next();
    }

    /**
     * Reports everything: failures, then for each rule that was applied and never failed one verdict at {@code where}: passed, or not
     * checked where sectors are missing.
     *
     * @param missing by rule the sectors that prevented it somewhere
     */
    void report(Checks out, ByteRange where, Map<String, SectorRanges> missing) {
        for (Map.Entry<String, List<Group>> rule : failed.entrySet()) {
            for (Group group : rule.getValue()) {
                report(out, rule.getKey(), group);
            }
        }
        Mark root = null;
        for (Map.Entry<String, SectorRanges> rule : missing.entrySet()) {
            Mark mark = out.report(rule.getKey(), where, Outcome.unread(rule.getValue()).because(root));
            root = root == null ? mark : root;
        }
        for (String rule : applied) {
            if (!failed.containsKey(rule) && !missing.containsKey(rule)) {
                out.report(rule, where, Outcome.passed());
            }
        }
    }

    private void report(Checks out, String rule, Group group) {
        Failure first = group.first;
        Mark earlier = first.cause() != null ? first.cause() : marks.get(first.record());
        Mark main = out.in(first.structure()).report(rule, first.where(), outcome(first, list(group), group.count).because(earlier));
        marks.putIfAbsent(first.record(), main);
        for (Failure other : group.others) {
            Mark mark = out.in(other.structure()).report(rule, other.where(), outcome(other, "" + other.record(), 1).because(main));
            marks.putIfAbsent(other.record(), mark);
        }
    }

    private static Outcome outcome(Failure failure, String records, long affected) {
        Outcome outcome = Outcome.failed(failure.stored(), failure.computed()).with("record", failure.record()).with("records", records)
                .with("affected", affected);
        failure.values().forEach(outcome::with);
        return failure.severity() == null ? outcome : outcome.severity(failure.severity());
    }

    private static String list(Group group) {
        List<String> shown = group.records.stream().limit(SHOWN).map(String::valueOf).toList();
        return String.join(", ", shown) + (group.count > SHOWN ? " …" : "");
    }

    /** Values of a failure in order. */
    static Map<String, Object> values(Object... pairs) {
        Map<String, Object> values = new LinkedHashMap<>();
        for (int i = 0; i < pairs.length; i += 2) {
            values.put((String) pairs[i], pairs[i + 1]);
        }
        return values;
    }
}
