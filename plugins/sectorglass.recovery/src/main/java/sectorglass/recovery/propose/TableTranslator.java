package sectorglass.recovery.propose;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;

import sectorglass.disk.Disk;
import sectorglass.disk.MapProvider;
import sectorglass.disk.Partition;
import sectorglass.disk.Repair;
import sectorglass.disk.Repairs;
import sectorglass.disk.Translation;
import sectorglass.disk.Volume;
import sectorglass.image.Overlay;
import sectorglass.image.Progress;
import sectorglass.image.Providers;
import sectorglass.image.SectorImage;
import sectorglass.verify.RuleBook;

/**
 * A whole disk's table and boot sectors for another sector size, as one proposal judged on the image in sectors of that size, or the
 * reasons why not.
 */
public final class TableTranslator {
    /** Kinds that count in blocks of bytes, not in sectors: nothing of them changes. */
    private static final Set<String> INDEPENDENT = Set.of("ext2", "ext3", "ext4", "btrfs", "f2fs", "hfsplus", "apfs");

    private final RuleBook book;
    private final ProposalTexts texts;

    /**
     * What came out: one of the two.
     *
     * @param proposal judged, or null
     * @param reasons why not, sentences; empty where there is a proposal
     */
    public record Result(Proposal proposal, List<String> reasons) { }

    /** With texts from a book. */
    public TableTranslator(RuleBook book) {
        this.book = book;
        this.texts = new ProposalTexts(book.locale());
    }

    /** @param size bytes per sector wanted, 512 or 4096 */
    public Result translate(SectorImage image, int size, Progress progress) {
        Judge judge = new Judge(book);
        Judge.Run before = judge.run(image, progress);
        Disk disk = before.disk();
        List<Repair.Change> changes = new ArrayList<>();
        List<String> against = new ArrayList<>();
        List<String> reasons = new ArrayList<>();
        if (size == image.sectorSize()) {
            return new Result(null, List.of(texts.of("translate.same", size)));
        }
        boolean table = false;
        for (MapProvider provider : Providers.all(MapProvider.class)) {
            Optional<Translation> found = provider.translate(disk, size, book.locale());
            table |= found.isPresent();
            found.ifPresent(one -> take(one, changes, against, reasons, ""));
        }
        for (Partition partition : disk.partitions()) {
            volume(partition.volume(), texts.of("translate.partition", partition.number()), size, changes, against, reasons);
        }
        volume(disk.volume(), "", size, changes, against, reasons);
        if (!table && disk.volume() == null) {
            reasons.add(texts.of("translate.nothing"));
        }
        if (!reasons.isEmpty()) {
            return new Result(null, List.copyOf(reasons));
        }
        changes.sort(Comparator.comparingLong(Repair.Change::firstByte));
        Repair repair = new Repair("translate", texts.of("translate.title", size), texts.of("translate.reason", image.sectorSize(), size), 80,
                true, changes, against, List.of());
        Overlay over = Proposal.over(image, List.of(repair));
        Judge.Run after = judge.run(new Resized(over, size), progress);
        Effect effect = Judge.compare(before, after, changes.stream().map(Repair.Change::range).toList(), List.of());
        return new Result(new Proposal(repair.id(), repair.title(), repair.reason(), List.of(repair), effect), List.of());
    }

    private void volume(Volume volume, String where, int size, List<Repair.Change> changes, List<String> against, List<String> reasons) {
        if (volume == null || INDEPENDENT.contains(volume.info().kind())) {
            return;
        }
        Optional<Repairs> repairs = volume.capability(Repairs.class);
        if (repairs.isEmpty()) {
            reasons.add(where + texts.of("translate.unknown", volume.info().kind()));
        } else {
            take(repairs.get().translate(size, book.locale()), changes, against, reasons, where);
        }
    }

    private static void take(Translation one, List<Repair.Change> changes, List<String> against, List<String> reasons, String where) {
        if (one.refusal() != null) {
            reasons.add(where + one.refusal());
        } else {
            changes.addAll(one.changes());
            one.against().forEach(sentence -> against.add(where + sentence));
        }
    }
}
