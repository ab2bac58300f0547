package sectorglass.disk;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;

import sectorglass.image.AssembledImage;
import sectorglass.image.Progress;
import sectorglass.image.Providers;
import sectorglass.image.SectorImage;
import sectorglass.verify.Checks;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;

/**
 * Asks every provider for maps, then for volumes, and judges what only the whole disk can tell: whether maps fit the content, whether
 * content stands late, whether addresses wrapped. Reads little: maps, and the places where volumes keep their headers.
 */
public final class Survey {
    private final List<MapProvider> maps;
    private final List<VolumeProvider> volumes;

    /** A survey with these providers. */
    public Survey(List<MapProvider> maps, List<VolumeProvider> volumes) {
        this.maps = List.copyOf(maps);
        this.volumes = List.copyOf(volumes);
    }

    /** A survey with all provided parts. */
    public static Survey ofProviders() {
        return new Survey(Providers.all(MapProvider.class), Providers.all(VolumeProvider.class));
    }

    /** Surveys an image with all provided parts. */
    public static Disk of(SectorImage image, Progress progress) {
        return ofProviders().disk(image, progress);
    }

    /** Surveys an image. */
    public Disk disk(SectorImage image, Progress progress) {
        return disk(image, List.of(), progress);
    }

    /**
     * Surveys an image.
     *
     * @param others further disks, which may hold members of the same sets
     */
    public Disk disk(SectorImage image, List<? extends SectorImage> others, Progress progress) {
        List<Disk.FoundMap> found = new ArrayList<>();
        for (int i = 0; i < maps.size(); i++) {
            progress.checkCancelled();
            progress.at("partition maps", i, maps.size());
            for (PartitionMap map : maps.get(i).locate(image)) {
                found.add(new Disk.FoundMap(map, maps.get(i)));
            }
        }
        found.sort(Comparator.comparingLong(f -> f.map().lba()));
        List<Partition> partitions = new ArrayList<>();
        for (Listing.Slot slot : Listing.of(found.stream().map(Disk.FoundMap::map).toList())) {
            progress.checkCancelled();
            progress.at("volumes", partitions.size(), 0);
            Volume volume = recognise(new VolumeSite(image, slot.entry().range(), slot.entry().type())).orElse(null);
            partitions.add(new Partition(partitions.size() + 1, slot.map(), slot.entry(), Roles.of(slot.entry(), volume), volume));
        }
        boolean mapped = found.stream().anyMatch(f -> !f.map().leftover()
                && f.map().entries().stream().anyMatch(e -> e.use() != MapEntry.Use.WHOLE));
        Volume whole = mapped ? null : recognise(new VolumeSite(image, image.all(), null)).orElse(null);
        Sets sets = new Sets(image, this::recognise);
        partitions.stream().map(Partition::volume).filter(Objects::nonNull).forEach(sets::add);
        if (whole != null) {
            sets.add(whole);
        }
        for (SectorImage other : others) {
            sets.addOther(disk(other, progress));
        }
        sets.extend(partitions, whole != null ? 1 : partitions.size());
        return new Disk(image, List.copyOf(found), List.copyOf(partitions), whole, sets.found(), List.copyOf(others));
    }

    /** The volume that the best claim of all providers makes at a site. */
    public Optional<Volume> recognise(VolumeSite site) {
        if (site.range().count() == 0 || site.range().first() >= site.image().sectors()) {
            return Optional.empty();
        }
        return claimed(site).map(best -> best.provider().open(best.claim()));
    }

    /** A claim and who made it. */
    private record Claimed(Claim claim, VolumeProvider provider) { }

    /** Whether what stands at a site is claimed with more confidence than what stands at another. */
    boolean surer(VolumeSite site, VolumeSite than) {
        return claimed(site).map(c -> c.claim().confidence()).orElse(0) > claimed(than).map(c -> c.claim().confidence()).orElse(0);
    }

    private Optional<Claimed> claimed(VolumeSite site) {
        Claim best = null;
        VolumeProvider claimant = null;
        for (VolumeProvider provider : volumes) {
            Optional<Claim> claim = provider.recognise(site);
            if (claim.isPresent() && (best == null || claim.get().confidence() > best.confidence())) {
                best = claim.get();
                claimant = provider;
            }
        }
        return best == null ? Optional.empty() : Optional.of(new Claimed(best, claimant));
    }

    /** Structures of maps and volumes that know their own place, by the place where they were found. */
    public List<Witness> witnesses(Disk disk) {
        return new Displacement(disk, this).witnesses();
    }

    /** Runs every check that applies to a disk. */
    public Findings verify(Disk disk, Level level, RuleBook book, Progress progress) {
        return Findings.of(checks(disk, level, progress), book, disk.image().sectorSize());
    }

    /**
     * Runs the checks that can say something of a place. Volumes that start behind it are left out: what stands before them has the same
     * findings with the same ids as in {@link #verify}, because findings are numbered by address.
     *
     * @param end image byte after the place
     */
    public Findings verifyUpTo(long end, Disk disk, Level level, RuleBook book, Progress progress) {
        return Findings.of(checks(end, disk, level, progress), book, disk.image().sectorSize());
    }

    /** Runs every check that applies to a disk and gives the verdicts before they are folded and numbered. */
    public Checks checks(Disk disk, Level level, Progress progress) {
        return checks(Long.MAX_VALUE, disk, level, progress);
    }

    private Checks checks(long end, Disk disk, Level level, Progress progress) {
        Checks out = new Checks();
        for (Disk.FoundMap found : disk.maps()) {
            progress.checkCancelled();
            found.provider().check(found.map(), disk, out);
        }
        for (MapProvider provider : maps) {
            provider.checkDisk(disk, out);
        }
        for (Partition partition : disk.partitions()) {
            progress.checkCancelled();
            progress.at("volumes", partition.number(), disk.partitions().size());
            if (partition.volume() != null && partition.placed() && partition.range().first() * disk.image().sectorSize() < end) {
                partition.volume().check(level, out.volume(partition.number()), progress);
            } else if (partition.volume() != null && !partition.placed() && partition.volume().site().image() instanceof AssembledImage own) {
                Checks apart = new Checks();
                partition.volume().check(level, apart.volume(partition.number()), progress);
                new SetPlaces(own, disk.image()).move(apart, out);
            }
        }
        if (disk.volume() != null) {
            disk.volume().check(level, out.volume(1), progress);
        }
        if (end == Long.MAX_VALUE) {
            disk.sets().forEach(set -> set.member().check(set.members(), level, out, progress));
        }
        new ContentFit(disk).check(out);
        new Displacement(disk, this).check(out);
        return out;
    }

    /**
     * Judges each map alone.
     *
     * @return one verdict per map of the disk, in the same order
     */
    public List<MapVerdict> judge(Disk disk, RuleBook book) {
        ContentFit fit = new ContentFit(disk);
        List<MapVerdict> verdicts = new ArrayList<>();
        for (int i = 0; i < disk.maps().size(); i++) {
            Disk.FoundMap found = disk.maps().get(i);
            Checks own = new Checks();
            found.provider().check(found.map(), disk, own);
            Findings findings = Findings.of(own, book, disk.image().sectorSize());
            verdicts.add(new MapVerdict(MapVerdict.consistent(findings), fit.of(i).fits()));
        }
        return verdicts;
    }
}
