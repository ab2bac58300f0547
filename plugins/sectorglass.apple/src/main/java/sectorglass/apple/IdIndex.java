package sectorglass.apple;

import java.util.HashMap;
import java.util.Map;

/** Ids and their places, in the order they came; ids that rise, as they do in sound trees, need no further room. */
final class IdIndex {
    private final LongList ids = new LongList();
    private boolean rises = true;
    private Map<Long, Integer> mixed;

    /** Adds an id that is not the last one. */
    void add(long id) {
        rises &= ids.size() == 0 || ids.get(ids.size() - 1) < id;
        ids.add(id);
        mixed = null;
    }

    int size() {
        return ids.size();
    }

    long get(int place) {
        return ids.get(place);
    }

    /** Whether the last id is this one. */
    boolean endsWith(long id) {
        return ids.size() > 0 && ids.get(ids.size() - 1) == id;
    }

    /** Place of an id, the last one where it came several times; -1 where it did not. */
    synchronized int find(long id) {
        if (rises) {
            return Math.max(-1, ids.find(id));
        }
        if (mixed == null) {
            Map<Long, Integer> all = new HashMap<>();
            for (int i = 0; i < ids.size(); i++) {
                all.put(ids.get(i), i);
            }
            mixed = all;
        }
        return mixed.getOrDefault(id, -1);
    }
}
