package sectorglass.practice.disk;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

import sectorglass.make.DiskDescription;
import sectorglass.make.MadeDisk;
import sectorglass.make.MadeVolume;
import sectorglass.make.Medium;
import sectorglass.make.Slot;
import sectorglass.make.SplitMix64;
import sectorglass.practice.fault.Area;
import sectorglass.practice.fault.FaultKind;
import sectorglass.practice.fault.Site;
import sectorglass.practice.fault.Spot;

/** Plants faults in a made disk: at random, or of a kind that is asked for. No two lie in the same zone. */
final class FaultDrawing {
    private static final int TRIES = 60;
    private static final int AROUND = 16;

    private final Medium medium;
    private final MadeDisk made;
    private final SplitMix64 numbers;
    private final List<String> zones = new ArrayList<>();
    private final List<Planted> planted = new ArrayList<>();

    /**
     * A fault in the disk.
     *
     * @param volume index of its volume in the list of partitions; -1 for a map
     * @param spots changed bytes, the main place first
     * @param wrong what stands at each of them now
     * @param around what should stand at each place and near it in its sector
     * @param seen where the check points, or null
     */
    record Planted(FaultKind kind, int volume, List<Spot> spots, List<byte[]> wrong, List<Spot> around, Spot seen) { }

    FaultDrawing(Medium medium, MadeDisk made, SplitMix64 numbers) {
        this.medium = medium;
        this.made = made;
        this.numbers = numbers;
    }

    List<Planted> planted() throws IOException {
        List<Planted> all = new ArrayList<>();
        for (Planted one : planted) {
            List<byte[]> wrong = new ArrayList<>();
            List<Spot> around = new ArrayList<>();
            for (Spot spot : one.spots()) {
                wrong.add(medium.read(spot.firstByte(), spot.right().length));
                around.add(around(spot));
            }
            all.add(new Planted(one.kind(), one.volume(), one.spots(), wrong, around, one.seen()));
        }
        return all;
    }

    /** The right bytes of a place and of what stands near it in the same sector. */
    private Spot around(Spot spot) throws IOException {
        int size = made.description().sectorSize();
        long first = Math.max(spot.firstByte() / size * size, spot.firstByte() - AROUND);
        long end = Math.max(spot.end(), Math.min((spot.firstByte() / size + 1) * size, spot.end() + AROUND));
        byte[] bytes = medium.read(first, (int) (end - first));
        for (Planted other : planted) {
            for (Spot right : other.spots()) {
                for (long at = Math.max(first, right.firstByte()); at < Math.min(end, right.end()); at++) {
                    bytes[(int) (at - first)] = right.right()[(int) (at - right.firstByte())];
                }
            }
        }
        return new Spot(first, bytes);
    }

    /** A place where kinds may be planted. */
    private record Field(Area area, int volume) { }

    /** Plants up to a number of faults of the level; fewer only where the disk has no room for more. */
    void plant(int count, int level) throws IOException {
        List<Field> fields = fields();
        for (int i = 0; i < TRIES && planted.size() < count; i++) {
            Field field = fields.get(numbers.below(fields.size()));
            List<FaultKind> kinds = FaultKind.all().stream().filter(k -> k.area() == field.area() && k.level() <= level && k.level() >= level - 2).toList();
            if (!kinds.isEmpty()) {
                plant(kinds.get(numbers.below(kinds.size())), field.volume());
            }
        }
    }

    /** Plants a fault of a kind wherever it fits; false where it fits nowhere. */
    boolean plant(FaultKind kind) throws IOException {
        for (Field field : fields()) {
            for (int i = 0; field.area() == kind.area() && i < TRIES; i++) {
                if (plant(kind, field.volume())) {
                    return true;
                }
            }
        }
        return false;
    }

    /** Whether a disk has the structures for all of these kinds. */
    static boolean fits(DiskDescription disk, List<FaultKind> kinds) {
        int logical = logical(disk);
        return kinds.stream().map(FaultKind::area).allMatch(area -> area.map() ? area.fits(disk.map(), logical)
                : disk.partitions().stream().anyMatch(p -> p.volume() != null && area.fits(p.volume().kind())));
    }

    private static int logical(DiskDescription disk) {
        return (int) disk.partitions().stream().filter(p -> p.slot() == Slot.LOGICAL).count();
    }

    private List<Field> fields() {
        List<Field> fields = new ArrayList<>();
        int logical = logical(made.description());
        for (Area area : Area.values()) {
            if (area.map() && area.fits(made.description().map(), logical)) {
                fields.add(new Field(area, -1));
            }
            for (int i = 0; !area.map() && i < made.volumes().size(); i++) {
                MadeVolume volume = made.volumes().get(i);
                if (volume != null && area.fits(volume.kind())) {
                    fields.add(new Field(area, i));
                }
            }
        }
        return fields;
    }

    private boolean plant(FaultKind kind, int volume) throws IOException {
        String zone = (volume < 0 ? kind.area() == Area.GPT ? "map" : "map " + kind.area() : "volume " + volume) + "/" + kind.zone();
        String own = zone.endsWith("/") ? zone : zone + "/";
        if (zones.stream().anyMatch(other -> other.startsWith(own) || own.startsWith(other))) {
            return false;
        }
        Site site = new Site(medium, made, volume, SplitMix64.of(numbers.next(), kind.name()));
        try {
            kind.planting().plant(site);
        } catch (FaultKind.NoPlaceException e) {
            site.undo();
            return false;
        }
        zones.add(own);
        planted.add(new Planted(kind, volume, site.spots(), List.of(), List.of(), site.seen()));
        return true;
    }
}
