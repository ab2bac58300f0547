package sectorglass.recovery.propose;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.BiFunction;
import java.util.function.Supplier;

import sectorglass.disk.Disk;
import sectorglass.disk.Evidence;
import sectorglass.disk.MapProvider;
import sectorglass.disk.Partition;
import sectorglass.disk.Repair;
import sectorglass.disk.Repairs;
import sectorglass.disk.Volume;
import sectorglass.image.ByteRange;
import sectorglass.image.Progress;
import sectorglass.image.Providers;
import sectorglass.image.SectorImage;
import sectorglass.image.UnreadException;
import sectorglass.verify.RuleBook;

/**
 * Collects what providers offer, judges each, and puts together what belongs together: as long as something helps and harms nothing, it
 * is put on and the providers are asked again.
 */
public final class Proposals {
    private static final int ROUNDS = 6;
    private static final int LEAST_CONFIDENCE = 45;

    private final Judge judge;
    private final Locale locale;
    private final ProposalTexts texts;
    private final BiFunction<SectorImage, Disk, List<Evidence.FoundVolume>> found;

    /**
     * @param found volumes found without a map, on an image as it then is
     */
    public Proposals(RuleBook book, BiFunction<SectorImage, Disk, List<Evidence.FoundVolume>> found) {
        this.judge = new Judge(book);
        this.locale = book.locale();
        this.texts = new ProposalTexts(locale);
        this.found = found;
    }

    /** All proposals for an image, the best first; empty where nothing is wrong or nothing can be proven. */
    public List<Proposal> of(SectorImage image, Progress progress) {
        Judge.Run before = judge.run(image, progress);
        List<Proposal> singles = new ArrayList<>();
        for (Repair repair : repairs(image, before.disk())) {
            progress.checkCancelled();
            singles.add(judged(image, before, List.of(repair), progress));
        }
        singles.removeIf(p -> p.effect().gain() <= 0 && !p.effect().harms() && !p.agreement());
        singles.sort(Proposal.BY_RANK);
        List<Proposal> all = new ArrayList<>(singles);
        List<Repair> steps = together(image, before, singles, progress);
        if (steps.size() > 1) {
            all.add(0, judged(image, before, steps, progress));
        }
        return List.copyOf(all);
    }

    /** What a correction made by hand or read from a file comes to. */
    public Proposal judged(SectorImage image, List<Repair> steps, Progress progress) {
        return judged(image, judge.run(image, progress), steps, progress);
    }

    private Proposal judged(SectorImage image, Judge.Run before, List<Repair> steps, Progress progress) {
        Judge.Run after = judge.run(Proposal.over(image, steps), progress);
        Effect effect = Judge.compare(before, after, ranges(steps), kept(steps));
        Repair only = steps.size() == 1 ? steps.get(0) : null;
        return only != null ? new Proposal(only.id(), only.title(), only.reason(), steps, effect)
                : new Proposal("together", texts.of("together.title", steps.size()), texts.of("together.reason"), steps, effect);
    }

    private static List<ByteRange> ranges(List<Repair> steps) {
        return steps.stream().flatMap(step -> step.changes().stream()).map(Repair.Change::range).toList();
    }

    private static List<ByteRange> kept(List<Repair> steps) {
        return steps.stream().flatMap(step -> step.kept().stream()).map(Repair.Kept::where).toList();
    }

    /** What providers offer on this image as it is. */
    List<Repair> repairs(SectorImage image, Disk disk) {
        Evidence evidence = new Evidence(disk, found.apply(image, disk), locale);
        List<Repair> all = new ArrayList<>();
        for (MapProvider provider : Providers.all(MapProvider.class)) {
            offer(() -> provider.propose(evidence), all);
        }
        for (Partition partition : disk.partitions()) {
            offers(partition.volume(), all);
        }
        offers(disk.volume(), all);
        return all;
    }

    private void offers(Volume volume, List<Repair> all) {
        if (volume != null) {
            volume.capability(Repairs.class).ifPresent(repairs -> offer(() -> repairs.propose(locale), all));
        }
    }

    /** What rests on bytes that were not read is no offer. */
    private static void offer(Supplier<List<Repair>> offered, List<Repair> all) {
        try {
            all.addAll(offered.get());
        } catch (UnreadException e) {
            return;
        }
    }

    private List<Repair> together(SectorImage image, Judge.Run before, List<Proposal> singles, Progress progress) {
        List<Repair> steps = new ArrayList<>();
        Judge.Run state = before;
        List<Proposal> offers = singles;
        for (int round = 0; round < ROUNDS; round++) {
            List<Repair> taken = clear(offers);
            if (taken.isEmpty()) {
                break;
            }
            Judge.Run next = null;
            while (!taken.isEmpty() && next == null) {
                List<Repair> tried = new ArrayList<>(steps);
                tried.addAll(taken);
                Judge.Run after = judge.run(Proposal.over(image, tried), progress);
                Effect effect = Judge.compare(state, after, ranges(taken), kept(taken));
                if (effect.harms() || effect.gain() <= 0) {
                    taken = new ArrayList<>(taken.subList(0, taken.size() - 1));
                } else {
                    next = after;
                }
            }
            if (next == null) {
                break;
            }
            steps.addAll(taken);
            state = next;
            offers = new ArrayList<>();
            for (Repair repair : repairs(state.disk().image(), state.disk())) {
                offers.add(judged(state.disk().image(), state, List.of(repair), progress));
            }
            offers.sort(Proposal.BY_RANK);
        }
        return steps;
    }

    /** The good ones that do not touch the bytes of a better one. */
    private static List<Repair> clear(List<Proposal> ranked) {
        List<Repair> taken = new ArrayList<>();
        List<ByteRange> touched = new ArrayList<>();
        for (Proposal proposal : ranked) {
            if (proposal.good() && proposal.confidence() >= LEAST_CONFIDENCE
                    && proposal.ranges().stream().noneMatch(r -> touched.stream().anyMatch(r::overlaps))) {
                taken.addAll(proposal.steps());
                touched.addAll(proposal.ranges());
            }
        }
        return taken;
    }
}
