package sectorglass.verify;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.ResourceBundle;

import sectorglass.image.ByteRange;

/**
 * The findings of a run: sorted by address, numbered, and folded so that one cause is one finding.
 *
 * @param all every verdict with its id; folded ones have a {@link Finding#cause}
 * @param counts how many there are of each kind, after folding
 */
public record Findings(List<Finding> all, Counts counts) {

    /** Numbers after folding, as the command line prints them. */
    public record Counts(int unusable, int atRisk, int cosmetic, int notChecked, int passed) { }

    /** Failed and not checked, without those that were folded under another. */
    public List<Finding> listed() {
        return all.stream().filter(f -> f.verdict() != Verdict.PASSED && f.cause() == null).toList();
    }

    /** Collects what the checkers reported. */
    public static Findings of(Checks checks, RuleBook book, int sectorSize) {
        List<Checks.Entry> sorted = new ArrayList<>(checks.entries());
        sorted.sort(Comparator.comparing((Checks.Entry e) -> e.where().start())
                .thenComparing(e -> e.mark().rule).thenComparing(e -> e.where().length()));
        Map<Mark, Integer> ids = new IdentityHashMap<>();
        for (int i = 0; i < sorted.size(); i++) {
            ids.put(sorted.get(i).mark(), i + 1);
        }
        Integer[] causes = new Fold(sorted, book, ids).causes();
        int[] folded = new int[sorted.size()];
        for (Integer cause : causes) {
            if (cause != null) {
                folded[cause - 1]++;
            }
        }
        List<Finding> all = new ArrayList<>(sorted.size());
        for (int i = 0; i < sorted.size(); i++) {
            all.add(finding(i + 1, sorted.get(i), book, sectorSize, causes[i], folded[i] + 1));
        }
        return new Findings(List.copyOf(all), count(all));
    }

    private static Finding finding(int id, Checks.Entry entry, RuleBook book, int sectorSize, Integer cause, int count) {
        Outcome outcome = entry.mark().outcome;
        Rule rule = book.rule(entry.mark().rule);
        ByteRange where = entry.where();
        Severity severity = outcome.verdict != Verdict.FAILED ? null
                : outcome.severity != null ? outcome.severity : rule.severity();
        Map<String, Object> values = new LinkedHashMap<>(outcome.values);
        Map<String, Object> filled = new HashMap<>(values);
        ValueWords words = ValueWords.of(book.locale());
        String stored = words.say(outcome.stored);
        String computed = words.say(outcome.computed);
        filled.put("stored", stored);
        filled.put("computed", computed);
        filled.put("lba", where.start() / sectorSize);
        filled.put("byte", where.start() % sectorSize);
        filled.put("count", count);
        String what = book.text(rule.id(), "what", filled);
        String means = book.text(rule.id(), "means", filled);
        String advice = book.text(rule.id(), "advice", filled);
        String reason = words.say(outcome.reason);
        if (outcome.verdict == Verdict.NOT_CHECKED) {
            ResourceBundle sentences = ResourceBundle.getBundle("sectorglass.verify.words", book.locale(), Findings.class.getClassLoader(),
                    ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
            if (reason == null) {
                reason = outcome.missing.count() == 1 ? sentences.getString("reason.unread.one")
                        : String.format(Locale.ROOT, sentences.getString("reason.unread"), outcome.missing.count());
            }
            what = sentences.getString("what.not-checked") + " " + book.statement(rule.id()).orElse(what);
            means = sentences.getString("means.not-checked");
            advice = sentences.getString(outcome.missing.isEmpty() ? "advice.undecided" : "advice.unread");
        }
        return new Finding(id, rule.id(), outcome.verdict, severity, where, entry.structure(), stored, computed, what,
                means, advice, rule.source(), entry.volume(), reason, outcome.missing, cause, count, Map.copyOf(nonNull(values)));
    }

    private static Map<String, Object> nonNull(Map<String, Object> values) {
        values.values().removeIf(java.util.Objects::isNull);
        return values;
    }

    private static Counts count(List<Finding> all) {
        int[] n = new int[3];
        int notChecked = 0;
        int passed = 0;
        for (Finding f : all) {
            if (f.verdict() == Verdict.PASSED) {
                passed++;
            } else if (f.cause() == null) {
                if (f.verdict() == Verdict.NOT_CHECKED) {
                    notChecked++;
                } else {
                    n[f.severity().ordinal()]++;
                }
            }
        }
        return new Counts(n[0], n[1], n[2], notChecked, passed);
    }
}
