package sectorglass.image;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Whether the parts of a chunk set are in the right order, from structures found in them: those that know their own place prove where their
 * part belongs, and sound ones that cross a border prove that two parts follow each other. Finding structures is the caller's work.
 *
 * @param parts what is known of each part, in the order as opened
 * @param joined for each border, number i between parts i and i + 1: whether a sound structure crosses it
 * @param proposed indexes of the parts in the order that the structures speak for; the order as opened where they speak for none
 */
public record PartOrder(List<Place> parts, List<Boolean> joined, List<Integer> proposed) {

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
     * What is known of a part.
     *
     * @param part the part
     * @param agreeing number of structures in it that lie where they belong
     * @param elsewhere number of structures in it that belong elsewhere
     * @param shift what most of those would have to be moved by to come home, in bytes; 0 where there are none
     * @param example one of them in words, or null
     */
    public record Place(ImagePart part, int agreeing, int elsewhere, long shift, String example) {

        /** Whether structures in it prove that it lies where it belongs. */
        public boolean proven() {
            return agreeing > elsewhere;
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
        List<Place> places = new ArrayList<>();
        List<Boolean> joined = new ArrayList<>();
        for (ImagePart part : parts) {
            places.add(place(part, sightings));
        }
        for (int i = 0; i + 1 < parts.size(); i++) {
            long border = parts.get(i + 1).start();
            joined.add(sightings.stream().anyMatch(s -> s.sound && s.found.start() < border && s.found.end() > border));
        }
        return new PartOrder(List.copyOf(places), List.copyOf(joined), proposed(parts, places));
    }

    private static Place place(ImagePart part, Collection<Sighting> sightings) {
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
        return new Place(part, agreeing, elsewhere, shift, examples.get(shift == 0 ? null : shift));
    }

    /** Parts that are proven to belong elsewhere go there; it must be where another displaced or unproven part begins. */
    private static List<Integer> proposed(List<ImagePart> parts, List<Place> places) {
        int count = parts.size();
        Integer[] order = new Integer[count];
        boolean[] used = new boolean[count];
        for (int i = 0; i < count; i++) {
            Place place = places.get(i);
            long home = parts.get(i).start() + (place.elsewhere > place.agreeing ? place.shift : 0);
            int slot = place.agreeing == 0 && place.elsewhere == 0 ? -1 : slot(parts, home);
            if (slot >= 0) {
                if (order[slot] != null) {
                    return asOpened(count); // two parts claim one place: the structures contradict each other
                }
                order[slot] = i;
                used[i] = true;
            } else if (place.elsewhere > place.agreeing) {
                return asOpened(count);
            }
        }
        int next = 0;
        for (int slot = 0; slot < count; slot++) {
            if (order[slot] == null && !used[slot]) {
                order[slot] = slot;
                used[slot] = true;
            }
        }
        for (int slot = 0; slot < count; slot++) {
            if (order[slot] == null) {
                while (used[next]) {
                    next++;
                }
                order[slot] = next;
                used[next] = true;
            }
        }
        return List.of(order);
    }

    private static int slot(List<ImagePart> parts, long start) {
        for (int i = 0; i < parts.size(); i++) {
            if (parts.get(i).start() == start && parts.get(i).bytes() > 0) {
                return i;
            }
        }
        return -1;
    }

    private static List<Integer> asOpened(int count) {
        List<Integer> order = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            order.add(i);
        }
        return List.copyOf(order);
    }
}
