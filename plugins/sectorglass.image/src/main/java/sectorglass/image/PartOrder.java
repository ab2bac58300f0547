package sectorglass.image;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Whether the parts of a chunk set are in the right order, from structures found in them: those that know their own place prove where their
 * part belongs, sound ones that cross a border prove that two parts follow each other, and where sizes of parts are no multiples of 512
 * bytes, so that borders cut sectors, already where structures stand in a part tells which places it can have. Finding structures is the
 * caller's work.
 *
 * @param parts what is known of each part, in the order as opened
 * @param joined for each border, number i between parts i and i + 1: whether a sound structure crosses it
 * @param proposed indexes of the parts in the order that the structures speak for; the order as opened where they speak for none
 */
public record PartOrder(List<Place> parts, List<Boolean> joined, List<Integer> proposed) {

    /** Structures begin at multiples of this many bytes, whatever the sector size. */
    public static final int GRID = 512;

    /**
     * A structure that was found.
     *
     * @param found image bytes where it lies
     * @param home image byte where it says it belongs, or -1
     * @param sound whether its own checks pass
     * @param structure in words
     */
    public record Sighting(ByteRange found, long home, boolean sound, String structure) { }

    /**
     * Where structures stand in a part whose neighbours' sizes are no multiples of {@value #GRID}.
     *
     * @param part its index
     * @param remainder the byte of the part, modulo {@value #GRID}, at which they begin
     * @param count how many do
     * @param structure what they are, in words
     */
    public record Grid(int part, int remainder, int count, String structure) { }

    /**
     * A sound structure that begins in one part and goes on in another.
     *
     * @param part index of the part where it begins
     * @param next index of the part where it goes on
     * @param structure in words
     */
    public record Follow(int part, int next, String structure) { }

    /**
     * What is known of a part.
     *
     * @param part the part
     * @param agreeing number of structures in it that lie where they belong
     * @param elsewhere number of structures in it that belong elsewhere
     * @param shift what most of those would have to be moved by to come home, in bytes; 0 where there are none
     * @param example one of them in words, or null
     * @param grid where structures begin in it, or null where that says nothing
     * @param fits how many of the places, as opened, that allows; 0 where there is no grid
     */
    public record Place(ImagePart part, int agreeing, int elsewhere, long shift, String example, Grid grid, int fits) {

        /** Image byte where it begins by what its structures say of their places, or -1 where they do not tell. */
        public long home() {
            return agreeing == elsewhere ? -1 : part.start() + (agreeing > elsewhere ? 0 : shift);
        }

        /** Whether structures in it prove that it lies where it belongs. */
        public boolean proven() {
            return agreeing > elsewhere || agreeing == elsewhere && fits == 1 && onGrid();
        }

        /** Whether its structures begin where sectors do; true where nothing is known of that. */
        public boolean onGrid() {
            return grid == null || onGrid(part.start());
        }

        /** The same if it began at another byte. */
        public boolean onGrid(long start) {
            return grid == null || Math.floorMod(start + grid.remainder, GRID) == 0;
        }
    }

    /** Whether another order is spoken for. */
    public boolean wrong() {
        for (int i = 0; i < proposed.size(); i++) {
            if (proposed.get(i) != i) {
                return true;
            }
        }
        return false;
    }

    /** Judges the order of parts. Sightings in a plain image, whose image bytes are stored bytes. */
    public static PartOrder of(List<ImagePart> parts, Collection<Sighting> sightings) {
        return of(parts, sightings, List.of(), List.of());
    }

    /** Judges the order of parts, also from where structures begin in them and which parts follow each other. */
    public static PartOrder of(List<ImagePart> parts, Collection<Sighting> sightings, Collection<Grid> grids, Collection<Follow> follows) {
        List<Place> places = new ArrayList<>();
        List<Boolean> joined = new ArrayList<>();
        for (int i = 0; i < parts.size(); i++) {
            int index = i;
            places.add(place(parts, i, sightings, grids.stream().filter(g -> g.part == index).findFirst().orElse(null)));
        }
        for (int i = 0; i + 1 < parts.size(); i++) {
            long border = parts.get(i + 1).start();
            int index = i;
            joined.add(sightings.stream().anyMatch(s -> s.sound && s.found.start() < border && s.found.end() > border)
                    || follows.stream().anyMatch(f -> f.part == index && f.next == index + 1));
        }
        return new PartOrder(List.copyOf(places), List.copyOf(joined), new PartPuzzle(places, follows).solved());
    }

    private static Place place(List<ImagePart> parts, int index, Collection<Sighting> sightings, Grid grid) {
        ImagePart part = parts.get(index);
        ByteRange range = new ByteRange(part.start(), part.bytes());
        Map<Long, Integer> shifts = new HashMap<>();
        Map<Long, String> examples = new HashMap<>();
        for (Sighting sighting : sightings) {
            if (sighting.home >= 0 && range.contains(sighting.found.start())) {
                long shift = sighting.home - sighting.found.start();
                shifts.merge(shift, 1, Integer::sum);
                examples.putIfAbsent(shift, sighting.structure);
            }
        }
        int agreeing = shifts.getOrDefault(0L, 0);
        shifts.remove(0L);
        long shift = shifts.entrySet().stream().max(Map.Entry.<Long, Integer>comparingByValue().thenComparing(Map.Entry.comparingByKey()))
                .map(Map.Entry::getKey).orElse(0L);
        int elsewhere = shifts.values().stream().mapToInt(Integer::intValue).sum();
        int fits = grid == null ? 0 : (int) parts.stream().filter(p -> Math.floorMod(p.start() + grid.remainder, GRID) == 0).count();
        return new Place(part, agreeing, elsewhere, shift, examples.get(agreeing > elsewhere || shift == 0 ? Long.valueOf(0) : Long.valueOf(shift)), grid, fits);
    }
}
