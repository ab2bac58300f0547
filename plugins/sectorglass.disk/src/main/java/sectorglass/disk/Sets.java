package sectorglass.disk;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;

import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;

/** Puts sets of disks and partitions together, sets that stand on sets included, and continues the list of partitions with what they hold. */
final class Sets {
    /** More volumes than any set of disks on a bench has; a map may claim any number. */
    private static final int MOST = 512;

    private final SectorImage image;
    private final Function<VolumeSite, Optional<Volume>> recognise;
    private final List<Volume> pool = new ArrayList<>();
    /** Volumes of the surveyed image, and whether their addresses are its own. */
    private final Map<Volume, Boolean> here = new IdentityHashMap<>();
    private final List<Disk.FoundSet> found = new ArrayList<>();

    /** @param image the surveyed one; sets without a member on it are left out */
    Sets(SectorImage image, Function<VolumeSite, Optional<Volume>> recognise) {
        this.image = image;
        this.recognise = recognise;
    }

    /** Adds a volume of the surveyed image that may be a member. */
    void add(Volume found) {
        add(found, true);
    }

    private void add(Volume found, boolean placed) {
        pool.add(found);
        here.put(found, placed);
    }

    /** Adds the volumes of another disk. */
    void addOther(Disk disk) {
        disk.partitions().stream().filter(p -> p.map() >= 0).map(Partition::volume).filter(Objects::nonNull).forEach(pool::add);
        if (disk.volume() != null) {
            pool.add(disk.volume());
        }
    }

    /** The sets, after {@link #extend}. */
    List<Disk.FoundSet> found() {
        return List.copyOf(found);
    }

    /**
     * Adds the volumes of sets to the list.
     *
     * @param partitions the partitions so far
     * @param last the last number used
     */
    void extend(List<Partition> partitions, int last) {
        Set<String> done = new HashSet<>();
        int number = last;
        for (int i = 0; i < pool.size() && partitions.size() < MOST; i++) {
            SetMember member = pool.get(i).capability(SetMember.class).orElse(null);
            if (member == null || !done.add(member.set())) {
                continue;
            }
            List<Volume> members = pool.stream().filter(v -> v.capability(SetMember.class).map(m -> m.set().equals(member.set())).orElse(false))
                    .sorted(Comparator.comparing(v -> !here.containsKey(v))).toList();
            if (!here.containsKey(members.get(0))) {
                continue;
            }
            found.add(new Disk.FoundSet(member, members));
            int slot = 0;
            boolean placedMember = here.get(members.get(0));
            for (SetVolume held : member.assemble(members)) {
                boolean placed = placedMember && held.own();
                if (partitions.size() >= MOST) {
                    break;
                }
                Volume volume = recognise.apply(new VolumeSite(held.image(), held.range(), null)).orElse(null);
                ByteRange where = new ByteRange(placed ? held.range().first() * image.sectorSize() : 0, image.sectorSize());
                MapEntry entry = new MapEntry(++slot, held.range(), null, held.typeName(), held.name(), held.uuid(), false,
                        placed ? MapEntry.Use.PARTITION : MapEntry.Use.ASSEMBLED, where, List.of());
                partitions.add(new Partition(++number, -1, entry, Roles.of(entry, volume), volume));
                if (volume != null) {
                    add(volume, placed);
                }
            }
        }
    }
}
