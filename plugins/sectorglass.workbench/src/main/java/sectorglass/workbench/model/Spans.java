package sectorglass.workbench.model;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

import sectorglass.decode.FieldNode;
import sectorglass.decode.FieldWalk;
import sectorglass.disk.Structure;
import sectorglass.image.ByteRange;
import sectorglass.verify.Finding;
import sectorglass.verify.Verdict;

/** Finds the fields that explain a stretch of an image. Works, so not for the thread of the window. */
final class Spans {
    private static final Comparator<Finding> GRAVEST_FIRST = Comparator.comparing((Finding f) -> f.verdict() == Verdict.FAILED ? 0 : 1)
            .thenComparing(f -> f.severity() == null ? 9 : f.severity().ordinal());

    private final OpenDisk open;
    private final Decodings decodings;

    Spans(OpenDisk open, Decodings decodings) {
        this.open = open;
        this.decodings = decodings;
    }

    /** The fields that hold a byte of the range, by address; each byte is explained by its innermost structure. */
    List<Span> in(ByteRange range) {
        List<Span> found = new ArrayList<>();
        List<Finding> findings = open.findings(range);
        for (Structure structure : decodings.byHand()) {
            if (structure.range().overlaps(range)) {
                add(decodings.of(structure), range, findings, found);
            }
        }
        int step = open.image().sectorSize();
        long at = range.start();
        while (at < range.end()) {
            Optional<Structure> hand = decodings.byHandAt(at);
            if (hand.isPresent()) {
                at = hand.get().range().end();
                continue;
            }
            Optional<Explained> explained = decodings.at(at);
            if (explained.isEmpty()) {
                at = (at / step + 1) * step;
                continue;
            }
            ByteRange structure = explained.get().structure().range();
            add(explained.get(), range, findings, found);
            at = Math.max(at + 1, structure.end());
        }
        found.sort(Comparator.comparingDouble(Span::from).thenComparing(Comparator.comparingLong(Span::length).reversed()));
        return List.copyOf(found);
    }

    private void add(Explained explained, ByteRange range, List<Finding> findings, List<Span> into) {
        if (explained.root() == null) {
            return;
        }
        int number = 0;
        for (FieldNode node : FieldWalk.values(explained.root())) {
            if (node.length() <= 0) {
                continue;
            }
            number++;
            ByteRange bytes = new ByteRange(node.firstByte(), node.length());
            if (!bytes.overlaps(range) || yields(explained.structure(), bytes)) {
                continue;
            }
            Finding worst = findings.stream().filter(f -> f.where().overlaps(bytes)).min(GRAVEST_FIRST).orElse(null);
            into.add(new Span(node.firstByte(), node.length(), node.bit(), node.bits(), node, explained.structure(), worst, number % 2 == 1));
        }
    }

    /** Whether another structure was put over a field by hand. */
    private boolean yields(Structure of, ByteRange bytes) {
        for (Structure structure : decodings.byHand()) {
            if (structure != of && structure.range().overlaps(bytes) && !decodings.byHand().contains(of)) {
                return true;
            }
        }
        return false;
    }
}
