package sectorglass.recovery.places;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalLong;

import sectorglass.decode.DecodeOptions;
import sectorglass.decode.Decoder;
import sectorglass.decode.FieldNode;
import sectorglass.decode.FormatCatalogue;
import sectorglass.decode.SpecException;
import sectorglass.disk.Structure;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorStates;
import sectorglass.image.UnreadException;
import sectorglass.recovery.Differences;
import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.verify.Severity;
import sectorglass.verify.Verdict;

/**
 * How two places agree, and which of them passes its own checks. A byte that was not read on both sides is no difference: it is not known.
 *
 * @param pair the places
 * @param equal bytes that are the same
 * @param different bytes that are not
 * @param unknown bytes that were not read on both sides
 * @param runs stretches that differ, as bytes from the start of the place, the first ones
 * @param fields names of the fields whose values differ; empty where no format explains the places
 * @param passes which of the places no check worse than cosmetic fails at
 */
public record PlaceComparison(PlacePair pair, long equal, long different, long unknown, List<ByteRange> runs, List<String> fields, Passes passes) {
    private static final int MOST_RUNS = 100;
    private static final int MOST_FIELDS = 40;
    private static final int LARGEST = 1 << 16;

    /** Which place passes. */
    public enum Passes {
        /** No check fails at either. */
        BOTH,
        /** Only the first passes. */
        ONE,
        /** Only the other passes. */
        OTHER,
        /** Checks fail at both. */
        NEITHER,
        /** Not all of both was read, and nothing fails in what was. */
        NOT_KNOWN;

        /** Lower case English, as in JSON. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', ' ');
        }
    }

    /** Compares. */
    public static PlaceComparison of(SectorImage image, PlacePair pair, Findings findings, FormatCatalogue catalogue, Progress progress) {
        long length = Math.min(pair.one().length(), pair.other().length());
        Differences differences = new Differences(image, pair.one().start(), image, pair.other().start(), length);
        Differences.Count count = differences.count(progress);
        List<ByteRange> runs = new ArrayList<>();
        if (count.different() > 0) {
            runs(image, pair, length, runs, progress);
        }
        List<String> fields = count.different() == 0 || pair.first() == null || length > LARGEST ? List.of() : fields(image, pair, catalogue);
        return new PlaceComparison(pair, length - count.different() - count.unknown(), count.different(), count.unknown(), List.copyOf(runs),
                fields, passes(image, pair, findings));
    }

    /** First differing byte of the first place, in the image. */
    public OptionalLong firstDifference() {
        return runs.isEmpty() ? OptionalLong.empty() : OptionalLong.of(pair.one().start() + runs.get(0).start());
    }

    private static void runs(SectorImage image, PlacePair pair, long length, List<ByteRange> runs, Progress progress) {
        Differences all = new Differences(image, pair.one().start(), image, pair.other().start(), length);
        OptionalLong at = all.next(-1, progress);
        while (at.isPresent() && runs.size() < MOST_RUNS) {
            long end = at.getAsLong() + 1;
            int room = (int) Math.min(LARGEST, length - end);
            byte[] one = new byte[room];
            byte[] other = new byte[room];
            SectorStates left = image.read(pair.one().start() + end, one, 0, room);
            SectorStates right = image.read(pair.other().start() + end, other, 0, room);
            int run = 0;
            while (run < room && one[run] != other[run] && left.isRead(pair.one().start() + end + run, 1)
                    && right.isRead(pair.other().start() + end + run, 1)) {
                run++;
            }
            runs.add(new ByteRange(at.getAsLong(), 1 + run));
            at = all.next(end + run - 1, progress);
        }
    }

    private static List<String> fields(SectorImage image, PlacePair pair, FormatCatalogue catalogue) {
        Map<String, FieldNode> one = new HashMap<>();
        Map<String, FieldNode> other = new HashMap<>();
        List<String> paths = new ArrayList<>();
        try {
            leaves(decoded(image, pair.first(), catalogue), one, paths);
            leaves(decoded(image, pair.second(), catalogue), other, new ArrayList<>());
        } catch (SpecException | UnreadException e) {
            return List.of(); // no format explains them: the bytes are told anyway
        }
        List<String> names = new ArrayList<>();
        for (String path : paths) {
            FieldNode left = one.get(path);
            FieldNode right = other.get(path);
            boolean known = right != null && left.state() != FieldNode.State.UNREAD && right.state() != FieldNode.State.UNREAD;
            if (known && left.length() > 0 && !same(left.raw(), right.raw()) && !names.contains(left.label()) && names.size() < MOST_FIELDS) {
                names.add(left.label());
            }
        }
        return List.copyOf(names);
    }

    private static FieldNode decoded(SectorImage image, Structure structure, FormatCatalogue catalogue) throws SpecException {
        return Decoder.decode(catalogue.load(structure.format()), structure.reader().read(image),
                DecodeOptions.DEFAULT.withParams(structure.params()));
    }

    private static void leaves(FieldNode node, Map<String, FieldNode> into, List<String> paths) {
        if (node.children().isEmpty()) {
            into.put(node.path(), node);
            paths.add(node.path());
        }
        for (FieldNode child : node.children()) {
            leaves(child, into, paths);
        }
    }

    private static boolean same(Object one, Object other) {
        return one instanceof byte[] left && other instanceof byte[] right ? Arrays.equals(left, right) : Objects.equals(one, other);
    }

    private static Passes passes(SectorImage image, PlacePair pair, Findings findings) {
        boolean one = !fails(findings, pair.one());
        boolean other = !fails(findings, pair.other());
        if (one && other) {
            return read(image, pair.one()) && read(image, pair.other()) ? Passes.BOTH : Passes.NOT_KNOWN;
        }
        return one ? Passes.ONE : other ? Passes.OTHER : Passes.NEITHER;
    }

    private static boolean read(SectorImage image, ByteRange bytes) {
        SectorRange sectors = bytes.sectors(image.sectorSize());
        return image.inState(ReadState.READ, sectors).count() == sectors.count();
    }

    /** A check that compares the two says nothing about which of them is right. */
    private static boolean fails(Findings findings, ByteRange place) {
        for (Finding finding : findings.all()) {
            boolean ofBoth = finding.check().contains("equal") || finding.check().contains("copies") || finding.check().contains("agree");
            if (!ofBoth && finding.verdict() == Verdict.FAILED && finding.severity() != Severity.COSMETIC && finding.where().overlaps(place)
                    && finding.where().length() <= place.length()) {
                return true;
            }
        }
        return false;
    }
}
