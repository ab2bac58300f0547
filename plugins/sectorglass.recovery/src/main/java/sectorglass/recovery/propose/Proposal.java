package sectorglass.recovery.propose;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

import sectorglass.disk.Repair;
import sectorglass.image.ByteRange;
import sectorglass.image.Overlay;
import sectorglass.image.Patch;
import sectorglass.image.Provenance;
import sectorglass.image.SectorImage;

/**
 * A correction with what the checks say about it.
 *
 * @param id of its repair; {@code together} where several steps belong together
 * @param title one line
 * @param reason why, in words
 * @param steps repairs in the order they are put on; one or more
 * @param effect what the checks say without and with it
 */
public record Proposal(String id, String title, String reason, List<Repair> steps, Effect effect) {

    /** Best first: nothing worse, no agreement needed, larger gain, more confidence, fewer bytes. */
    public static final Comparator<Proposal> BY_RANK = Comparator.comparing((Proposal p) -> p.effect().harms())
            .thenComparing(Proposal::agreement).thenComparing(p -> -p.effect().gain()).thenComparing(p -> -p.confidence())
            .thenComparingLong(Proposal::bytes);

    /** Whether a person has to agree first. */
    public boolean agreement() {
        return steps.stream().anyMatch(Repair::agreement);
    }

    /** The least confidence of its steps. */
    public int confidence() {
        return steps.stream().mapToInt(Repair::confidence).min().orElse(0);
    }

    /** Whether it may be taken as the best one: it helps, harms nothing, needs nobody's agreement. */
    public boolean good() {
        return !effect.harms() && !agreement() && effect.gain() > 0;
    }

    /** All changes in order; a later one stands over an earlier one. */
    public List<Repair.Change> changes() {
        return steps.stream().flatMap(step -> step.changes().stream()).toList();
    }

    /** What speaks against it. */
    public List<String> against() {
        return steps.stream().flatMap(step -> step.against().stream()).distinct().toList();
    }

    /** What stays as it stands. */
    public List<Repair.Kept> kept() {
        return steps.stream().flatMap(step -> step.kept().stream()).distinct().toList();
    }

    /** Bytes in its changes. */
    public long bytes() {
        return changes().stream().mapToLong(change -> change.bytes().length).sum();
    }

    /** The image bytes it touches. */
    public List<ByteRange> ranges() {
        return changes().stream().map(Repair.Change::range).toList();
    }

    /** The image with the correction over it. */
    public Overlay over(SectorImage image) {
        return over(image, steps);
    }

    static Overlay over(SectorImage image, List<Repair> steps) {
        List<Patch> patches = new ArrayList<>();
        for (Repair step : steps) {
            Provenance from = new Provenance(Provenance.Kind.PROPOSAL, step.id());
            step.changes().forEach(change -> patches.add(new Patch(change.firstByte(), change.bytes(), from)));
        }
        return Overlay.over(image, image.name()).with(patches);
    }
}
