package sectorglass.disk.copy;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/**
 * Invents names: of the same length, in the same order (by UTF-16 unit in capital letters, as folders are sorted), equal for equal names and different
 * for different ones. What stays visible of the old names is their length, and which of them begin alike. Names that are kept stand as they are, and the
 * others keep their order against them.
 */
public final class Disguise {
    private static final String PLAIN = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";
    private static final String LEGAL = "!#%&'()-" + "0123456789" + "@" + "ABCDEFGHIJKLMNOPQRSTUVWXYZ" + "^_`{}~";
    private static final int MORE_FIRST = 0x4E00;
    private static final int MORE = 0x5000;
    private static final int MOST_NAMES = 4_000_000;

    private final long seed;
    private final boolean numbers;
    private final boolean bytes;
    private final Set<String> learned = new TreeSet<>();
    private final Set<String> kept = new TreeSet<>();
    private final Map<String, String> labels = new HashMap<>();
    private String[] old;
    private char[][] fresh;

    /**
     * @param seed of all that is invented
     * @param numbers whether serial numbers and identities are replaced, too
     * @param bytes whether names are bytes: no letter beyond 7E is invented
     */
    public Disguise(long seed, boolean numbers, boolean bytes) {
        this.seed = seed;
        this.numbers = numbers;
        this.bytes = bytes;
    }

    /** The same for names that are bytes. */
    public Disguise ofBytes() {
        return new Disguise(seed ^ 0x5D, numbers, true);
    }

    /** Whether serial numbers and identities are replaced, too. */
    public boolean numbers() {
        return numbers;
    }

    /** Notes a name that occurs. */
    public void learn(String name) {
        if (!name.isEmpty() && learned.size() < MOST_NAMES) {
            learned.add(capital(name));
            old = null;
        }
    }

    /** Notes a name that stays: of a system's own file. */
    public void keep(String name) {
        kept.add(capital(name));
        learn(name);
    }

    /** The capital letters of a name, unit by unit. */
    private static String capital(String name) {
        char[] units = name.toCharArray();
        for (int i = 0; i < units.length; i++) {
            units[i] = Character.toUpperCase(units[i]);
        }
        return new String(units);
    }

    /** The invented name; a kept one as it is, one that was not learned as letters without order. */
    public String name(String name) {
        String wanted = capital(name);
        if (kept.contains(wanted)) {
            return name;
        }
        prepare();
        int at = Arrays.binarySearch(old, wanted);
        return at >= 0 ? new String(fresh[at]) : letters(name.length(), name.hashCode());
    }

    /** An invented label, equal for equal ones; blanks at the end stay. */
    public String label(String label) {
        return labels.computeIfAbsent(label, l -> {
            int length = l.stripTrailing().length();
            return letters(length, l.hashCode() ^ 0x11) + l.substring(length);
        });
    }

    /** Letters that depend on the seed and a number only. */
    public String letters(int length, long number) {
        StringBuilder text = new StringBuilder(length);
        for (int i = 0; i < length; i++) {
            text.append((char) ('A' + Math.floorMod(random(number * 31 + i), 26)));
        }
        return text.toString();
    }

    /** A number that depends on the seed and another number only (SplitMix64, variant 13 of the mixing function). */
    public long random(long number) {
        long z = seed + (number + 1) * 0x9E3779B97F4A7C15L;
        z = (z ^ z >>> 30) * 0xBF58476D1CE4E5B9L;
        z = (z ^ z >>> 27) * 0x94D049BB133111EBL;
        return z ^ z >>> 31;
    }

    private void prepare() {
        if (old == null) {
            old = learned.toArray(new String[0]);
            fresh = new char[old.length][];
            for (int i = 0; i < old.length; i++) {
                fresh[i] = new char[old[i].length()];
            }
            assign(0, old.length, 0);
        }
    }

    /** Gives the names of a range, which begin alike, their unit at a depth. */
    private void assign(int from, int to, int depth) {
        int at = from;
        while (at < to && old[at].length() <= depth) {
            at++;
        }
        while (at < to) {
            // names up to the next one that is kept take letters below its own
            int end = at;
            int groups = 0;
            int low = at == from || old[at - 1].length() <= depth ? -1 : fresh[at - 1][depth];
            int[] starts = new int[16];
            while (end < to && !fixed(end, depth)) {
                if (groups == starts.length) {
                    starts = Arrays.copyOf(starts, groups * 2);
                }
                starts[groups++] = end;
                end = next(end, to, depth);
            }
            int high = end < to ? old[end].charAt(depth) : Character.MAX_VALUE;
            char[] chosen = letters(groups, low, high, old[at].hashCode() * 31L + depth);
            for (int g = 0; g < groups; g++) {
                int last = g + 1 < groups ? starts[g + 1] : end;
                give(starts[g], last, depth, chosen == null ? old[starts[g]].charAt(depth) : chosen[g]);
            }
            at = end;
            if (at < to) {
                int last = next(at, to, depth);
                give(at, last, depth, old[at].charAt(depth));
                at = last;
            }
        }
    }

    private void give(int from, int to, int depth, char unit) {
        for (int i = from; i < to; i++) {
            fresh[i][depth] = unit;
        }
        assign(from, to, depth + 1);
    }

    /** First index behind the names that have the same unit there. */
    private int next(int from, int to, int depth) {
        int end = from + 1;
        while (end < to && old[end].charAt(depth) == old[from].charAt(depth)) {
            end++;
        }
        return end;
    }

    /** Whether a kept name begins as the names of a group do. */
    private boolean fixed(int index, int depth) {
        String prefix = old[index].substring(0, depth + 1);
        String first = ((TreeSet<String>) kept).ceiling(prefix);
        return first != null && first.startsWith(prefix);
    }

    /** Rising letters between two bounds, or null where there are too few. */
    private char[] letters(int count, int low, int high, long number) {
        for (String from : new String[] {PLAIN, LEGAL}) {
            String between = from.chars().filter(c -> c > low && c < high).collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append).toString();
            if (between.length() >= count) {
                return pick(between.toCharArray(), count, number);
            }
        }
        if (bytes || high < Character.MAX_VALUE || count > MORE) {
            return null;
        }
        char[] more = new char[MORE];
        for (int i = 0; i < MORE; i++) {
            more[i] = (char) (MORE_FIRST + i);
        }
        return pick(more, count, number);
    }

    /** A random choice in rising order. */
    private char[] pick(char[] from, int count, long number) {
        char[] chosen = new char[count];
        int taken = 0;
        for (int i = 0; i < from.length && taken < count; i++) {
            if (Math.floorMod(random(number + 7919L * i), from.length - i) < count - taken) {
                chosen[taken++] = from[i];
            }
        }
        return chosen;
    }
}
