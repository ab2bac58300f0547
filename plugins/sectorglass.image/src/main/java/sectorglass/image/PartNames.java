package sectorglass.image;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * Finds the files of a chunk set by the number in their names: {@code disk.001}, {@code disk.img.07}, {@code part-3.img}. The number
 * may have any width and begin anywhere.
 */
final class PartNames {
    /** Most parts that may be missing between two: a larger step is another numbering, such as a date. */
    static final int WIDEST_GAP = 1000;
    private static final int MOST_DIGITS = 18;
    private static final Pattern DIGITS = Pattern.compile("[0-9]+");
    /** A word before a number that says "this is a part". */
    private static final Pattern PART_WORD = Pattern.compile(
            "(?i)(^|[^a-z])(part|chunk|piece|segment|seg|split|slice|section|teil|stueck|stück|abschnitt)[ ._-]*$");

    /**
     * Files that are numbered alike.
     *
     * @param byNumber the files, in order
     * @param plain whether their names leave no doubt that they are parts: the number is the file name's ending, or follows a word such
     *     as "part"
     * @param twins names whose number another file has, too, written with another width
     */
    record Numbered(TreeMap<Long, Path> byNumber, boolean plain, List<Path> twins) {

        /** Numbers between the first and the last that no file has. */
        long gaps() {
            return byNumber.isEmpty() ? 0 : byNumber.lastKey() - byNumber.firstKey() + 1 - byNumber.size();
        }
    }

    private PartNames() {
    }

    /** The files numbered like this one, itself included; only itself where there are no others. */
    static Numbered of(Path file) throws IOException {
        String name = file.getFileName().toString();
        Numbered best = new Numbered(new TreeMap<>(Map.of(-1L, file)), false, List.of());
        List<int[]> places = new ArrayList<>();
        Matcher digits = DIGITS.matcher(name);
        while (digits.find()) {
            if (digits.end() - digits.start() <= MOST_DIGITS) {
                places.add(0, new int[] {digits.start(), digits.end()});
            }
        }
        if (places.isEmpty()) {
            return best;
        }
        Path folder = file.toAbsolutePath().getParent();
        List<String> names;
        try (Stream<Path> all = Files.list(folder)) {
            names = all.map(path -> path.getFileName().toString()).toList();
        }
        for (int[] place : places) {
            Numbered found = numbered(folder, file, name, names, place[0], place[1]);
            if (found.byNumber.size() > best.byNumber.size() || best.byNumber.containsKey(-1L) && found.plain) {
                best = found;
            }
        }
        return best;
    }

    private static Numbered numbered(Path folder, Path file, String name, List<String> names, int from, int to) {
        String before = name.substring(0, from);
        String after = name.substring(to);
        TreeMap<Long, Path> all = new TreeMap<>();
        List<Path> twins = new ArrayList<>();
        long own = Long.parseLong(name.substring(from, to));
        all.put(own, file);
        for (String other : names) {
            int digits = other.length() - before.length() - after.length();
            if (digits < 1 || digits > MOST_DIGITS || other.equals(name) || !other.startsWith(before) || !other.endsWith(after)
                    || !DIGITS.matcher(other.substring(before.length(), other.length() - after.length())).matches()
                    || Files.isDirectory(folder.resolve(other))) {
                continue;
            }
            long number = Long.parseLong(other.substring(before.length(), other.length() - after.length()));
            Path path = file.resolveSibling(other);
            Path twin = all.get(number);
            if (twin == null) {
                all.put(number, path);
            } else {
                boolean better = !twin.equals(file) && digits == to - from;
                twins.add(better ? all.put(number, path) : path);
            }
        }
        boolean plain = after.isEmpty() && (before.endsWith(".") || PART_WORD.matcher(before).find())
                || after.startsWith(".") && PART_WORD.matcher(before).find();
        return new Numbered(near(all, own), plain, twins);
    }

    /** The numbers around one, as far as the steps between them are small. */
    private static TreeMap<Long, Path> near(TreeMap<Long, Path> all, long own) {
        long first = own;
        long last = own;
        for (Long next = all.lowerKey(own); next != null && first - next <= WIDEST_GAP; next = all.lowerKey(next)) {
            first = next;
        }
        for (Long next = all.higherKey(own); next != null && next - last <= WIDEST_GAP; next = all.higherKey(next)) {
            last = next;
        }
        return new TreeMap<>(all.subMap(first, true, last, true));
    }
}
