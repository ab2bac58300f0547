package sectorglass.image;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

import sectorglass.image.PartOrder.Follow;
import sectorglass.image.PartOrder.Place;

/**
 * Lays parts one after the other so that everything known of them holds: a part proven to begin at a byte begins there, structures begin
 * where sectors do, parts that were seen to follow each other do. Of several such orders the one nearest to that as opened is taken.
 */
final class PartPuzzle {
    /** Looks at parts before the search is given up. */
    private static final long MOST_LOOKS = 50_000_000;
    private static final long UNKNOWN = -1;

    private final List<Place> places;
    private final long[] homes;
    private final Map<Integer, Integer> next = new HashMap<>();
    private final Map<Integer, Integer> before = new HashMap<>();
    private final boolean[] used;
    private final List<Integer> order = new ArrayList<>();
    private long looks;

    PartPuzzle(List<Place> places, Collection<Follow> follows) {
        this.places = places;
        this.homes = new long[places.size()];
        this.used = new boolean[places.size()];
        for (int i = 0; i < homes.length; i++) {
            homes[i] = places.get(i).home();
        }
        for (Follow follow : follows) {
            next.put(follow.part(), follow.next());
            before.put(follow.next(), follow.part());
        }
    }

    /** Indexes in the order found; as opened where none is. */
    List<Integer> solved() {
        if (!lay(0)) {
            order.clear();
            for (int i = 0; i < homes.length; i++) {
                order.add(i);
            }
        }
        return List.copyOf(order);
    }

    /** Tries to lay all parts that are left from a byte on; no recursion, since there may be thousands. */
    private boolean lay(long from) {
        List<List<Integer>> left = new ArrayList<>();
        long start = from;
        left.add(candidates(start));
        while (order.size() < homes.length) {
            List<Integer> here = left.get(left.size() - 1);
            if (here.isEmpty()) {
                left.remove(left.size() - 1);
                if (left.isEmpty() || (looks += homes.length) > MOST_LOOKS) {
                    return false;
                }
                int taken = order.remove(order.size() - 1);
                used[taken] = false;
                start -= places.get(taken).part().bytes();
            } else {
                int taken = here.remove(0);
                used[taken] = true;
                order.add(taken);
                start += places.get(taken).part().bytes();
                left.add(candidates(start));
            }
        }
        return true;
    }

    /** What may come next, the part of this place first; of parts of which the same is known, one is enough. */
    private List<Integer> candidates(long start) {
        List<Integer> found = new ArrayList<>();
        Set<List<Object>> alike = new HashSet<>();
        Integer last = order.isEmpty() ? null : order.get(order.size() - 1);
        Integer wanted = last == null ? null : next.get(last);
        int here = order.size();
        for (int k = -1; k < homes.length; k++) {
            int i = k < 0 ? here : k;
            if (i >= homes.length || used[i] || k == here) {
                continue;
            }
            if (homes[i] != UNKNOWN && homes[i] < start) {
                return List.of(); // it cannot be laid any more
            }
            boolean follows = wanted == null ? before.get(i) == null || before.get(i).equals(last) : wanted == i;
            if (follows && (homes[i] == UNKNOWN || homes[i] == start) && places.get(i).onGrid(start) && alike.add(kind(i))) {
                found.add(i);
            }
        }
        return found;
    }

    private List<Object> kind(int i) {
        boolean single = homes[i] != UNKNOWN || next.containsKey(i) || before.containsKey(i) || places.get(i).part().missing();
        Place place = places.get(i);
        return single ? List.of(i) : List.of(-1, place.part().bytes(), place.grid() == null ? -1 : place.grid().remainder());
    }
}
