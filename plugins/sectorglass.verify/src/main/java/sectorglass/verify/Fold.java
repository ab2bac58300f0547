package sectorglass.verify;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * The one pass that gives findings their cause: what the checker said, else what the rule follows from, by address. A rule that
 * follows from others is folded under the first of them that failed or could not be checked in the same structure, or in a
 * structure that holds it; else, one that points at the very same bytes. Causes are followed to their root.
 */
final class Fold {
    private final List<Checks.Entry> entries;
    private final RuleBook book;
    private final Map<Mark, Integer> ids;
    /** Indexes of troubled entries by rule id, then by start of the structure. */
    private final Map<String, TreeMap<Long, Integer>> troubled = new HashMap<>();

    /** Indexes of troubled entries by rule id and first byte. */
    private final Map<String, Integer> places = new HashMap<>();

    /** Index of the first failed entry whose rule covers what stands behind it, or -1. */
    private int covering = -1;

    Fold(List<Checks.Entry> entries, RuleBook book, Map<Mark, Integer> ids) {
        this.entries = entries;
        this.book = book;
        this.ids = ids;
    }

    /** For each entry the id of its root cause, or null. */
    Integer[] causes() {
        for (int i = 0; i < entries.size(); i++) {
            Checks.Entry entry = entries.get(i);
            if (entry.mark().verdict() != Verdict.PASSED) {
                troubled.computeIfAbsent(entry.mark().rule, rule -> new TreeMap<>()).putIfAbsent(entry.structure().start(), i);
                places.putIfAbsent(place(entry.mark().rule, entry.where().start()), i);
            }
        }
        for (int i = entries.size() - 1; i >= 0; i--) {
            Mark mark = entries.get(i).mark();
            covering = mark.verdict() == Verdict.FAILED && book.rule(mark.rule).covers() ? i : covering;
        }
        Integer[] direct = new Integer[entries.size()];
        for (int i = 0; i < direct.length; i++) {
            direct[i] = direct(i);
        }
        Integer[] roots = new Integer[direct.length];
        for (int i = 0; i < direct.length; i++) {
            roots[i] = root(i, direct);
        }
        return roots;
    }

    private Integer direct(int index) {
        Checks.Entry entry = entries.get(index);
        if (entry.mark().verdict() == Verdict.PASSED) {
            return null;
        }
        if (covered(index)) {
            return covering + 1;
        }
        Mark said = entry.mark().outcome.cause;
        if (said != null) {
            Integer id = said.verdict() == Verdict.PASSED ? null : ids.get(said);
            if (id != null) {
                return id;
            }
        }
        String causeRule = entry.mark().outcome.causeRule;
        if (causeRule != null) {
            Integer found = places.get(place(causeRule, entry.mark().outcome.causeByte));
            if (found != null && found != index) {
                return found + 1;
            }
        }
        for (String wanted : book.rule(entry.mark().rule).followsFrom()) {
            Integer found = wanted.endsWith("*") ? startingWith(wanted.substring(0, wanted.length() - 1), entry, index)
                    : exactly(wanted, entry, index);
            if (found != null) {
                return found;
            }
        }
        return null;
    }

    /** Whether a failing that stands before explains this one, since it explains everything behind itself. */
    private boolean covered(int index) {
        Checks.Entry entry = entries.get(index);
        return covering >= 0 && covering != index && entry.mark().verdict() == Verdict.FAILED
                && entry.where().start() >= entries.get(covering).structure().start();
    }

    private static String place(String rule, long firstByte) {
        return rule + '@' + firstByte;
    }

    private Integer startingWith(String prefix, Checks.Entry entry, int self) {
        for (String rule : troubled.keySet().stream().filter(r -> r.startsWith(prefix)).sorted().toList()) {
            Integer found = exactly(rule, entry, self);
            if (found != null) {
                return found;
            }
        }
        return null;
    }

    private Integer exactly(String rule, Checks.Entry entry, int self) {
        TreeMap<Long, Integer> starts = troubled.get(rule);
        if (starts == null) {
            return null;
        }
        Map.Entry<Long, Integer> near = starts.floorEntry(entry.structure().start());
        if (near == null || near.getValue() == self) {
            return null;
        }
        Checks.Entry cause = entries.get(near.getValue());
        boolean together = cause.structure().contains(entry.structure()) || cause.where().equals(entry.where());
        return together ? near.getValue() + 1 : null;
    }

    private static Integer root(int index, Integer[] direct) {
        Integer cause = direct[index];
        for (int steps = 0; cause != null && direct[cause - 1] != null && steps < 32; steps++) {
            cause = direct[cause - 1];
        }
        return cause != null && cause == index + 1 ? null : cause;
    }
}
