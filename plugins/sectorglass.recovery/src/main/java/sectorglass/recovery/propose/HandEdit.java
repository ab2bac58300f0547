package sectorglass.recovery.propose;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

import sectorglass.disk.Disk;
import sectorglass.disk.MapProvider;
import sectorglass.disk.Partition;
import sectorglass.disk.Repair;
import sectorglass.disk.Repairs;
import sectorglass.disk.Survey;
import sectorglass.disk.Volume;
import sectorglass.image.ByteRange;
import sectorglass.image.Overlay;
import sectorglass.image.Patch;
import sectorglass.image.Progress;
import sectorglass.image.Provenance;
import sectorglass.image.Providers;
import sectorglass.image.SectorImage;

/** Changes that a person makes to fields, and the checksums that depend on them. */
public final class HandEdit {
    /** A checksum may itself be covered by another one; further than this no known structure goes. */
    private static final int DEPTH = 4;

    private HandEdit() {
    }

    /** The reason of a change by hand. */
    public static String why(Locale locale) {
        return new ProposalTexts(locale).of("hand.why");
    }

    /** The image with changes over it. */
    public static Overlay over(SectorImage image, List<Repair.Change> changes) {
        Provenance hand = new Provenance(Provenance.Kind.HAND, "hand");
        List<Patch> patches = changes.stream().map(c -> new Patch(c.firstByte(), c.bytes(), hand)).toList();
        return Overlay.over(image, image.name()).with(patches);
    }

    /**
     * Checksums and copies that depend on the changes and do not hold with them.
     *
     * @return further changes in the order to put them on, each with its reason; empty where nothing depends on the changed bytes
     */
    public static List<Repair.Change> dependents(SectorImage image, List<Repair.Change> changes, Locale locale) {
        List<Repair.Change> all = new ArrayList<>();
        List<Repair.Change> fresh = changes;
        for (int depth = 0; depth < DEPTH && !fresh.isEmpty(); depth++) {
            List<Repair.Change> so = new ArrayList<>(changes);
            so.addAll(all);
            Overlay over = over(image, so);
            Disk disk = Survey.of(over, Progress.NONE);
            List<Repair.Change> next = new ArrayList<>();
            for (Repair.Change change : fresh) {
                for (Repair.Change dependent : on(change.range(), over, disk, locale)) {
                    if (next.stream().noneMatch(known -> known.range().equals(dependent.range()))) {
                        next.add(dependent);
                    }
                }
            }
            all.addAll(next);
            fresh = next;
        }
        return List.copyOf(all);
    }

    private static List<Repair.Change> on(ByteRange changed, SectorImage over, Disk disk, Locale locale) {
        List<Repair.Change> all = new ArrayList<>();
        for (MapProvider provider : Providers.all(MapProvider.class)) {
            all.addAll(provider.dependents(changed, over, locale));
        }
        for (Partition partition : disk.partitions()) {
            add(partition.volume(), changed, over, locale, all);
        }
        add(disk.volume(), changed, over, locale, all);
        return all;
    }

    private static void add(Volume volume, ByteRange changed, SectorImage over, Locale locale, List<Repair.Change> all) {
        if (volume != null) {
            volume.capability(Repairs.class).ifPresent(repairs -> all.addAll(repairs.dependents(changed, over, locale)));
        }
    }

    /** A repair of changes by hand with everything that depends on them. */
    public static Repair repair(SectorImage image, List<Repair.Change> changes, Locale locale) {
        List<Repair.Change> all = new ArrayList<>(changes);
        all.addAll(dependents(image, changes, locale));
        return of(all, locale);
    }

    /** A repair of exactly these changes. */
    public static Repair of(List<Repair.Change> changes, Locale locale) {
        ProposalTexts texts = new ProposalTexts(locale);
        List<Repair.Change> sorted = new ArrayList<>(changes);
        sorted.sort(Comparator.comparingLong(Repair.Change::firstByte));
        return new Repair("hand", texts.of("hand.title"), texts.of("hand.reason"), 50, true, sorted, List.of(), List.of());
    }
}
