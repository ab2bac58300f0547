package sectorglass.recovery;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

import sectorglass.disk.Sighting;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;

/** Makes one sighting of a row of structures, from samples of it. */
final class RowSighting {
    private static final int SAMPLES = 8;
    /** So many of a kind at a fixed distance are no chance. */
    private static final int ENOUGH = 4;

    private RowSighting() {
    }

    /** The sighting; empty where none of the samples is what its signature says. */
    static Optional<Sighting> of(SectorImage image, StructureRow row, SignatureTable.Wanted wanted) {
        List<Sighting> sound = new ArrayList<>();
        for (long at : row.samples(SAMPLES)) {
            wanted.finder().look(image, at, wanted.signature()).ifPresent(sound::add);
        }
        if (sound.isEmpty()) {
            return Optional.empty();
        }
        Sighting best = sound.stream().max(Comparator.comparingInt((Sighting s) -> s.votes().stream().mapToInt(Sighting.Vote::weight).max().orElse(0))
                .thenComparingInt(Sighting::confidence)).orElseThrow();
        List<Sighting.Vote> votes = new ArrayList<>(best.votes());
        java.time.Instant latest = null;
        for (Sighting one : sound) {
            one.votes().stream().filter(v -> !votes.contains(v)).forEach(votes::add);
            if (one.latest() != null && (latest == null || one.latest().isAfter(latest))) {
                latest = one.latest();
            }
        }
        List<Sighting.Evidence> evidence = new ArrayList<>(best.evidence());
        if (row.count() >= ENOUGH && sound.size() >= 2) {
            evidence.add(Sighting.Evidence.of(Sighting.Reason.IN_A_ROW));
        }
        long end = Math.max(row.last() + best.where().length(), best.where().end());
        return Optional.of(new Sighting(best.kind(), best.structure(), best.copy(), new ByteRange(row.first(), end - row.first()),
                best.format(), best.params(), row.count(), row.stride(), best.facts(), evidence, votes, best.identity(), latest));
    }
}
