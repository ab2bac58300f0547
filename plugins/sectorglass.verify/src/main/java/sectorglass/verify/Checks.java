package sectorglass.verify;

import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.UnreadException;

/**
 * Where checkers put their verdicts. A child made by {@link #in} adds the structure, one made by {@link #volume} the volume number
 * to everything reported through it. Not safe for several threads: parallel checkers use one each and {@link #addAll}.
 */
public final class Checks {

    /** A verdict as reported. */
    record Entry(Mark mark, ByteRange where, ByteRange structure, Integer volume) { }

    private final List<Entry> entries;
    private final ByteRange structure;
    private final Integer volume;

    /** An empty collection. */
    public Checks() {
        this(new ArrayList<>(), null, null);
    }

    private Checks(List<Entry> entries, ByteRange structure, Integer volume) {
        this.entries = entries;
        this.structure = structure;
        this.volume = volume;
    }

    /** Reports about one structure: what follows from what is decided among the verdicts of one structure. */
    public Checks in(ByteRange structureRange) {
        return new Checks(entries, structureRange, volume);
    }

    /** Reports about one volume, by its number in the listing. */
    public Checks volume(int number) {
        return new Checks(entries, structure, number);
    }

    /**
     * Runs a test and reports what it comes to. A test that meets unread bytes is <em>not checked</em> with the missing sectors.
     *
     * @param rule id of the rule
     * @param where the bytes it is about
     * @param test gives the outcome; null means that the rule does not apply, which reports nothing
     * @return the mark, or null where the rule did not apply
     */
    public Mark check(String rule, ByteRange where, Supplier<Outcome> test) {
        Outcome outcome;
        try {
            outcome = test.get();
        } catch (UnreadException e) {
            outcome = Outcome.unread(e.missing());
        }
        return outcome == null ? null : report(rule, where, outcome);
    }

    /** Reports an outcome. */
    public Mark report(String rule, ByteRange where, Outcome outcome) {
        Mark mark = new Mark(rule, outcome);
        ByteRange at = outcome.where != null ? outcome.where : where;
        entries.add(new Entry(mark, at, structure != null ? structure : at, volume));
        return mark;
    }

    /** Adds what another collection holds, after what is here. */
    public void addAll(Checks other) {
        for (Entry entry : other.entries) {
            entries.add(volume == null || entry.volume != null ? entry
                    : new Entry(entry.mark, entry.where, entry.structure, volume));
        }
    }

    /**
     * Adds what another collection holds about places of its own.
     *
     * @param place gives the image bytes of a range there
     * @param sectors gives the image's sectors for sectors there
     */
    public void addMoved(Checks other, UnaryOperator<ByteRange> place, UnaryOperator<SectorRanges> sectors) {
        Map<Mark, Mark> moved = new IdentityHashMap<>();
        for (Entry entry : other.entries) {
            Outcome outcome = entry.mark.outcome.moved(place, sectors, moved);
            Mark mark = new Mark(entry.mark.rule, outcome);
            moved.put(entry.mark, mark);
            entries.add(new Entry(mark, place.apply(entry.where), place.apply(entry.structure), entry.volume != null ? entry.volume : volume));
        }
    }

    /** Number of verdicts so far. */
    public int size() {
        return entries.size();
    }

    List<Entry> entries() {
        return entries;
    }
}
