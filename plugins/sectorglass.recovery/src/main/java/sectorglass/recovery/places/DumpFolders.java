package sectorglass.recovery.places;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

import sectorglass.image.Progress;

/**
 * Two folders of numbered dumps: redundant copies of the same numbered pieces, taken one by one. Dumps of one number are compared byte by
 * byte; which of two is right nothing here decides. Files are read one after the other in constant memory.
 */
public final class DumpFolders {
    private static final Pattern NUMBER = Pattern.compile("[0-9]{1,18}");
    private static final int CHUNK = 1 << 16;

    /** How two dumps of one number stand to each other. */
    public enum Answer {
        /** The same bytes. */
        SAME,
        /** As long, but other bytes. */
        DIFFERENT,
        /** Of different lengths; the shorter one may be the beginning of the other. */
        LENGTHS,
        /** Only in the first folder. */
        ONLY_FIRST,
        /** Only in the second folder. */
        ONLY_SECOND;

        /** Lower case English, as in JSON. */
        public String word() {
            return name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ');
        }
    }

    /**
     * A number and what the folders hold of it.
     *
     * @param key the number, or the whole name where two files of a folder share a number or have none
     * @param one file of the first folder, or null
     * @param other file of the second folder, or null
     * @param different bytes that differ where both have bytes
     * @param firstDifference the first of them, or -1
     * @param oneHolds the byte, if that of the first folder holds one byte only, else -1: such a dump is no second opinion
     * @param otherHolds the same of the second folder
     */
    public record Dump(String key, Path one, Path other, Answer answer, long different, long firstDifference, int oneHolds, int otherHolds) { }

    private DumpFolders() {
    }

    /**
     * Compares two folders; their own files only, not those of folders in them.
     *
     * @return by number
     */
    public static List<Dump> compare(Path first, Path second, Progress progress) throws IOException {
        Map<String, Path> one = files(first);
        Map<String, Path> other = files(second);
        TreeMap<String, Path> all = new TreeMap<>(DumpFolders::order);
        all.putAll(one);
        all.putAll(other);
        List<Dump> dumps = new ArrayList<>();
        for (String key : all.keySet()) {
            progress.checkCancelled();
            progress.at("comparing", dumps.size(), all.size());
            dumps.add(compare(key, one.get(key), other.get(key)));
        }
        return List.copyOf(dumps);
    }

    private static int order(String one, String other) {
        boolean numbers = !one.isEmpty() && !other.isEmpty() && one.chars().allMatch(Character::isDigit) && other.chars().allMatch(Character::isDigit);
        return numbers ? Long.compare(Long.parseLong(one), Long.parseLong(other)) : one.compareTo(other);
    }

    private static Map<String, Path> files(Path folder) throws IOException {
        TreeMap<String, List<Path>> byNumber = new TreeMap<>();
        try (Stream<Path> files = Files.list(folder)) {
            for (Path file : files.filter(Files::isRegularFile).sorted().toList()) {
                byNumber.computeIfAbsent(number(file.getFileName().toString()), key -> new ArrayList<>()).add(file);
            }
        }
        TreeMap<String, Path> all = new TreeMap<>();
        byNumber.forEach((number, files) -> {
            for (Path file : files) {
                all.put(files.size() == 1 ? number : file.getFileName().toString(), file);
            }
        });
        return all;
    }

    /** The number of a name, the last in it, without leading zeros; the name where it has none. */
    static String number(String name) {
        int dot = name.lastIndexOf('.');
        String stem = dot > 0 ? name.substring(0, dot) : name;
        Matcher decimal = NUMBER.matcher(stem);
        String last = null;
        while (decimal.find()) {
            last = decimal.group();
        }
        boolean hex = stem.matches("[0-9A-Fa-f]{1,15}") && !stem.matches("[0-9]+");
        return last == null || hex ? name : String.valueOf(Long.parseLong(last));
    }

    private static Dump compare(String key, Path one, Path other) throws IOException {
        if (one == null || other == null) {
            return new Dump(key, one, other, other == null ? Answer.ONLY_FIRST : Answer.ONLY_SECOND, 0, -1, -1, -1);
        }
        long different = 0;
        long first = -1;
        boolean lengths;
        Repeat left = new Repeat();
        Repeat right = new Repeat();
        try (InputStream a = new BufferedInputStream(Files.newInputStream(one), CHUNK);
                InputStream b = new BufferedInputStream(Files.newInputStream(other), CHUNK)) {
            byte[] x = new byte[CHUNK];
            byte[] y = new byte[CHUNK];
            long at = 0;
            while (true) {
                int n = a.readNBytes(x, 0, CHUNK);
                int m = b.readNBytes(y, 0, CHUNK);
                left.add(x, n);
                right.add(y, m);
                for (int i = 0; i < Math.min(n, m); i++) {
                    if (x[i] != y[i]) {
                        different++;
                        first = first < 0 ? at + i : first;
                    }
                }
                at += Math.min(n, m);
                if (n != m || n < CHUNK) {
                    lengths = n != m;
                    break;
                }
            }
        }
        Answer answer = lengths ? Answer.LENGTHS : different > 0 ? Answer.DIFFERENT : Answer.SAME;
        return new Dump(key, one, other, answer, different, first, left.only(), right.only());
    }

    /** Whether a dump holds one byte only. */
    private static final class Repeat {
        private int value = -1;
        private boolean one = true;

        void add(byte[] bytes, int length) {
            for (int i = 0; i < length && one; i++) {
                value = value < 0 ? bytes[i] & 0xFF : value;
                one = value == (bytes[i] & 0xFF);
            }
        }

        int only() {
            return one ? value : -1;
        }
    }
}
