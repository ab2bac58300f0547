package sectorglass.verify;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.UnaryOperator;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;

/**
 * What a check came to. Built in one expression:
 * {@code Outcome.failed(hex(stored), hex(computed)).with("slot", 2).at(range)}.
 */
public final class Outcome {
    final Verdict verdict;
    final String stored;
    final String computed;
    final String reason;
    final SectorRanges missing;
    final Map<String, Object> values = new LinkedHashMap<>();
    Severity severity;
    ByteRange where;
    Mark cause;
    String causeRule;
    long causeByte;

    private Outcome(Verdict verdict, String stored, String computed, String reason, SectorRanges missing) {
        this.verdict = verdict;
        this.stored = stored;
        this.computed = computed;
        this.reason = reason;
        this.missing = missing;
    }

    /** The same about other places; causes are replaced by their moved marks. */
    Outcome moved(UnaryOperator<ByteRange> place, UnaryOperator<SectorRanges> sectors, Map<Mark, Mark> marks) {
        Outcome other = new Outcome(verdict, stored, computed, reason, missing.isEmpty() ? missing : sectors.apply(missing));
        other.values.putAll(values);
        other.severity = severity;
        other.where = where == null ? null : place.apply(where);
        other.cause = marks.get(cause);
        other.causeRule = causeRule;
        other.causeByte = causeRule == null ? 0 : place.apply(new ByteRange(causeByte, 1)).start();
        return other;
    }

    /** The rule holds. */
    public static Outcome passed() {
        return new Outcome(Verdict.PASSED, null, null, null, SectorRanges.EMPTY);
    }

    /**
     * Passed if the condition holds, otherwise failed with both values.
     *
     * @param stored the value found, as text for people, in the trade's form
     * @param computed the value that the rule asks for
     */
    public static Outcome test(boolean holds, Object stored, Object computed) {
        return holds ? passed() : failed(stored, computed);
    }

    /** The rule is broken. */
    public static Outcome failed(Object stored, Object computed) {
        return new Outcome(Verdict.FAILED, String.valueOf(stored), computed == null ? null : String.valueOf(computed), null,
                SectorRanges.EMPTY);
    }

    /** Cannot be decided because these sectors were not read. */
    public static Outcome unread(SectorRanges missing) {
        return new Outcome(Verdict.NOT_CHECKED, null, null, null, missing);
    }

    /** Cannot be decided for another reason: a length that is illegal, a structure that was not found. */
    public static Outcome undecided(String reason) {
        return new Outcome(Verdict.NOT_CHECKED, null, null, reason, SectorRanges.EMPTY);
    }

    /** Adds a value for the placeholders of the rule's texts. */
    public Outcome with(String key, Object value) {
        values.put(key, value);
        return this;
    }

    /** Sets another severity than the rule's. */
    public Outcome severity(Severity other) {
        severity = other;
        return this;
    }

    /** Points at other bytes than the check was announced for: the first offending one, say. */
    public Outcome at(ByteRange range) {
        where = range;
        return this;
    }

    /** Says which failed or undecided check this follows from; null is allowed and changes nothing. */
    public Outcome because(Mark mark) {
        cause = mark;
        return this;
    }

    /**
     * Says which check this follows from by its rule and the first byte it points at: for causes that another call reports. Changes
     * nothing where no such check failed or was left undecided.
     */
    public Outcome follows(String rule, long firstByte) {
        causeRule = rule;
        causeByte = firstByte;
        return this;
    }
}
