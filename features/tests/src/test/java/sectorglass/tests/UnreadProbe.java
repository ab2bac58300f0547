package sectorglass.tests;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

import sectorglass.disk.Level;
import sectorglass.image.ByteRange;
import sectorglass.image.ReadState;
import sectorglass.image.SectorImage;
import sectorglass.image.SectorRange;
import sectorglass.image.SectorRanges;
import sectorglass.image.SectorStates;
import sectorglass.tests.MaskedImage.Filling;
import sectorglass.verify.Finding;
import sectorglass.verify.Verdict;

/** Marks sectors of one image unread, again and again, and gathers what verdicts then say that they must not. */
final class UnreadProbe {
    private static final List<Filling> FILLINGS = List.of(Filling.of(0), Filling.noise(11), Filling.of(0xFF), Filling.flips(5, 30),
            Filling.flips(6, 300), Filling.flips(7, 4), Filling.inner(8), Filling.inner(9), Filling.shifted(16), Filling.shifted(-32));

    /** Kind of fault: a check waits for a sector whose content seems not to matter. */
    static final String IN_VAIN = "2 waits in vain, ";
    /** Kind of fault: a check is decided although a sector that it named is still missing. */
    static final String TOO_MANY = "2 names more than needed ";

    private final SectorImage image;
    private final List<Filling> fillings;
    private final Level level;
    private final Random random;
    private final Verdicts base;
    private final List<Long> touched;
    private final SectorRanges lacking;
    private final Map<String, String> faults = new TreeMap<>();
    private final Map<String, Integer> counts = new TreeMap<>();
    private int runs;

    /** @param sound the image without damage: what its sectors hold is another content that checks must reckon with */
    UnreadProbe(SectorImage image, SectorImage sound, Level level) {
        this.image = image;
        this.fillings = new ArrayList<>(FILLINGS);
        if (image != sound) {
            fillings.add(0, (lba, sector) -> sound.read(lba * sector.length, sector, 0, sector.length));
        }
        this.level = level;
        this.random = new Random(image.bytes());
        TreeSet<Long> asked = new TreeSet<>();
        this.base = run(new Traced(image, asked));
        asked.removeIf(lba -> lba >= image.sectors());
        this.touched = new ArrayList<>(asked);
        this.lacking = SectorRanges.of(image.all()).minus(image.inState(ReadState.READ, image.all()));
    }

    Verdicts base() {
        return base;
    }

    /** Sectors that the checks asked for. */
    List<Long> touched() {
        return touched;
    }

    int runs() {
        return runs;
    }

    /** What went wrong, one example for each rule and kind of fault. */
    Map<String, String> faults() {
        return faults;
    }

    Map<String, Integer> counts() {
        return counts;
    }

    private Verdicts run(SectorImage of) {
        runs++;
        return Verdicts.of(of, level);
    }

    private void fault(String kind, Finding f, SectorRanges masked, String more) {
        String key = kind + " " + f.check();
        counts.merge(key, 1, Integer::sum);
        faults.putIfAbsent(key, image.name() + ": byte " + f.where().start() + "+" + f.where().length() + " in " + f.structure() + " stored "
                + f.stored() + " computed " + f.computed() + " missing " + f.missing() + " masked " + masked + " reason " + f.reason() + " " + more);
    }

    /** Some masks over sectors that the checks look at, single ones and several. */
    void probe(int masks) {
        for (int i = 0; i < masks && !touched.isEmpty(); i++) {
            List<SectorRange> runs = new ArrayList<>();
            int count = i % 2 == 0 ? 1 : 2 + random.nextInt(3);
            for (int k = 0; k < count; k++) {
                long first = touched.get(random.nextInt(touched.size()));
                long length = Math.min(image.sectors() - first, count > 1 && random.nextInt(3) == 0 ? 1 + random.nextInt(64) : 1);
                runs.add(new SectorRange(first, length));
            }
            mask(SectorRanges.of(runs), count == 1);
        }
    }

    private SectorImage without(SectorRanges masked) {
        return MaskedImage.unread(image, masked, Filling.noise(random.nextLong()));
    }

    void mask(SectorRanges masked, boolean single) {
        Verdicts after = run(without(masked));
        Map<SectorRanges, List<Finding>> undecided = new HashMap<>();
        for (Finding f : after.all()) {
            Set<Verdict> before = base.like(f);
            if (f.verdict() == Verdict.FAILED && !base.failed(f)) {
                fault("1 fails", f, masked, "before " + before);
            } else if (f.verdict() == Verdict.PASSED && !before.isEmpty() && !before.contains(Verdict.PASSED)) {
                fault("1 passes", f, masked, "before " + before);
            } else if (f.verdict() == Verdict.NOT_CHECKED && !before.contains(Verdict.NOT_CHECKED)) {
                SectorRanges named = f.missing().intersect(image.all()).minus(lacking);
                if (!named.minus(masked).isEmpty()) {
                    fault("2 names read sectors", f, masked, "");
                } else if (named.isEmpty()) {
                    fault("2 names nothing", f, masked, "before " + before);
                } else {
                    undecided.computeIfAbsent(named, n -> new ArrayList<>()).add(f);
                }
            }
        }
        undecided.forEach((named, findings) -> exact(masked, named, findings));
        if (single && !undecided.isEmpty()) {
            needed(masked, undecided.getOrDefault(masked, List.of()));
        }
    }

    /** With the named sectors read the check is decided, with one fewer it is not. */
    private void exact(SectorRanges masked, SectorRanges named, List<Finding> findings) {
        SectorRanges rest = masked.minus(named);
        if (!rest.isEmpty()) {
            Verdicts whole = run(without(rest));
            for (Finding f : findings) {
                Set<Verdict> now = whole.like(f);
                if (now.size() == 1 && now.contains(Verdict.NOT_CHECKED)) {
                    follow(rest, named, whole, f);
                }
            }
        }
        if (named.count() > 1) {
            List<Long> each = new ArrayList<>();
            for (SectorRange run : named) {
                each.add(run.first());
                each.add(run.last());
            }
            long left = each.get(random.nextInt(each.size()));
            Verdicts fewer = run(without(rest.union(SectorRanges.of(left, 1))));
            for (Finding f : findings) {
                Set<Verdict> now = fewer.like(f);
                // a broken rule is decided by the sector that breaks it, whichever others are unread
                boolean holds = !base.like(f).contains(Verdict.FAILED);
                if (holds && !now.isEmpty() && !now.contains(Verdict.NOT_CHECKED) && !mayNeed(rest, named, left, f)) {
                    fault(TOO_MANY.trim(), f, masked, "decided " + now + " without " + left);
                }
            }
        }
    }

    /** Whether a named sector that this content does not need would be needed if the other named ones held something else. */
    private boolean mayNeed(SectorRanges rest, SectorRanges named, long left, Finding f) {
        SectorRanges one = SectorRanges.of(left, 1);
        for (Filling filling : fillings) {
            SectorImage other = MaskedImage.other(image, named.minus(one), filling);
            Verdicts then = run(MaskedImage.unread(other, rest.union(one), Filling.noise(4)));
            if (then.all().stream().anyMatch(o -> o.check().equals(f.check()) && o.where().equals(f.where())
                    && o.verdict() == Verdict.NOT_CHECKED && o.missing().contains(left))) {
                return true;
            }
        }
        return false;
    }

    /** Still undecided: allowed only where the sectors that are lacking now could not be known before, since the named ones lead there. */
    private void follow(SectorRanges rest, SectorRanges named, Verdicts whole, Finding f) {
        Finding again = whole.all().stream().filter(o -> o.check().equals(f.check()) && o.where().equals(f.where())
                && o.verdict() == Verdict.NOT_CHECKED).findFirst().orElse(null);
        if (again == null) {
            return;
        }
        for (Filling filling : fillings) {
            Verdicts other = run(MaskedImage.unread(MaskedImage.other(image, named, filling), rest, Filling.noise(3)));
            boolean same = other.all().stream().anyMatch(o -> o.check().equals(f.check()) && o.where().equals(f.where())
                    && o.verdict() == Verdict.NOT_CHECKED && o.missing().equals(again.missing()));
            if (!same) {
                return;
            }
        }
        fault("2 names fewer than needed", f, rest.union(named), "then " + again.missing());
    }

    /** A check that waits for a sector: some content of that sector must give another verdict than the true one. */
    private void needed(SectorRanges masked, List<Finding> findings) {
        List<Finding> open = new ArrayList<>(findings);
        open.removeIf(f -> base.like(f).isEmpty());
        for (Filling filling : fillings) {
            if (open.isEmpty()) {
                return;
            }
            Verdicts other = run(MaskedImage.other(image, masked, filling));
            open.removeIf(f -> !other.like(f).equals(decided(base.like(f))));
        }
        for (Finding f : open) {
            fault(IN_VAIN + base.like(f).iterator().next(), f, masked, "");
        }
    }

    private static Set<Verdict> decided(Set<Verdict> before) {
        Set<Verdict> copy = before.isEmpty() ? EnumSet.noneOf(Verdict.class) : EnumSet.copyOf(before);
        return copy;
    }

    /** Remembers which sectors are asked for. */
    private record Traced(SectorImage base, Set<Long> asked) implements SectorImage {
        private static final int FEW = 2048;

        @Override
        public String name() {
            return base.name();
        }

        @Override
        public int sectorSize() {
            return base.sectorSize();
        }

        @Override
        public long bytes() {
            return base.bytes();
        }

        @Override
        public SectorStates read(long firstByte, byte[] into, int offset, int length) {
            SectorRange run = new ByteRange(firstByte, length).sectors(sectorSize());
            for (long lba = run.first(); lba < Math.min(run.end(), run.first() + FEW); lba++) {
                asked.add(lba);
            }
            return base.read(firstByte, into, offset, length);
        }

        @Override
        public ReadState state(long lba) {
            return base.state(lba);
        }

        @Override
        public SectorRanges inState(ReadState state, SectorRange within) {
            return base.inState(state, within);
        }
    }
}
