package sectorglass.recovery;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

import sectorglass.image.Progress;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;

/** Looks at samples of an image of which nothing is known. Reads at most 72 MiB, whatever its size. */
public final class ContentSampler {
    private static final int PIECES = 512;
    private static final int SAMPLE = 4096;
    private static final int WINDOWS = 256;
    private static final int WINDOW = 256 << 10;
    private static final int BLOCK = 512;
    private static final int MOST_REPEATS = 12;
    private static final int MOST_TEXTS = 40;
    /** Met fewer times, a signature is not said to repeat. */
    private static final int REPEATS = 8;
    private static final int MOST_KEYS = 1 << 18;
    private static final int SHORTEST_TEXT = 12;
    private static final int LONGEST_TEXT = 80;
    private static final double RANDOM_BITS = 7.8;

    private final SectorImage image;
    private final Map<Long, List<Long>> places = new HashMap<>();
    private final List<ContentLook.Text> texts = new ArrayList<>();
    private final Set<String> known = new HashSet<>();

    private ContentSampler(SectorImage image) {
        this.image = image;
    }

    /** Looks at an image. */
    public static ContentLook of(SectorImage image, Progress progress) {
        return new ContentSampler(image).look(progress);
    }

    private ContentLook look(Progress progress) {
        List<ContentLook.Piece> strip = new ArrayList<>();
        long pieces = Math.max(1, Math.min(PIECES, image.bytes() / SAMPLE));
        for (long i = 0; i < pieces; i++) {
            progress.checkCancelled();
            progress.at("content", i, pieces + WINDOWS);
            long from = image.bytes() / pieces * i;
            long to = i == pieces - 1 ? image.bytes() : image.bytes() / pieces * (i + 1);
            strip.add(piece(from, to));
        }
        long windows = Math.max(1, Math.min(WINDOWS, image.bytes() / WINDOW));
        int unread = 0;
        for (long i = 0; i < windows; i++) {
            progress.checkCancelled();
            progress.at("content", pieces + i, pieces + WINDOWS);
            long at = windows == 1 ? 0 : (image.bytes() - WINDOW) / (windows - 1) * i / BLOCK * BLOCK;
            unread += window(image.window(at, (int) Math.min(WINDOW, image.bytes() - at))) ? 0 : 1;
        }
        return new ContentLook(strip, repeats(), List.copyOf(texts), (int) windows, unread);
    }

    private ContentLook.Piece piece(long from, long to) {
        long at = (from + (to - from) / 2) / image.sectorSize() * image.sectorSize();
        int length = (int) Math.min(SAMPLE, image.bytes() - at);
        Window window = image.window(at, length);
        if (!window.isRead(0, length)) {
            return new ContentLook.Piece(from, to - from, ContentLook.Looks.UNREAD, -1);
        }
        byte[] bytes = window.raw(0, length);
        double entropy = entropy(bytes);
        return new ContentLook.Piece(from, to - from, looks(bytes, entropy), Math.round(entropy * 100) / 100.0);
    }

    private static ContentLook.Looks looks(byte[] bytes, double entropy) {
        int zeros = 0;
        int printable = 0;
        for (byte b : bytes) {
            zeros += b == 0 ? 1 : 0;
            printable += b >= 0x20 && b < 0x7F || b == '\n' || b == '\r' || b == '\t' ? 1 : 0;
        }
        if (zeros == bytes.length) {
            return ContentLook.Looks.ZERO;
        }
        if (entropy < 4 && periodic(bytes)) {
            return ContentLook.Looks.PATTERN;
        }
        if (printable >= bytes.length * 9 / 10) {
            return ContentLook.Looks.TEXT;
        }
        return entropy > RANDOM_BITS ? ContentLook.Looks.RANDOM : ContentLook.Looks.MIXED;
    }

    private static boolean periodic(byte[] bytes) {
        for (int period = 1; period <= 64; period++) {
            if (java.util.Arrays.equals(bytes, period, bytes.length, bytes, 0, bytes.length - period)) {
                return true;
            }
        }
        return false;
    }

    /** Shannon entropy in bits per byte. */
    static double entropy(byte[] bytes) {
        int[] counts = new int[256];
        for (byte b : bytes) {
            counts[b & 0xFF]++;
        }
        double bits = 0;
        for (int count : counts) {
            if (count > 0) {
                double share = (double) count / bytes.length;
                bits -= share * Math.log(share) / Math.log(2);
            }
        }
        return bits;
    }

    /** Takes the first four bytes of each block, and text; false where nothing of the window was read. */
    private boolean window(Window window) {
        int length = window.length() / BLOCK * BLOCK;
        byte[] bytes = window.raw(0, window.length());
        boolean any = false;
        for (int at = 0; at < length; at += BLOCK) {
            if (!window.isRead(at, BLOCK)) {
                continue;
            }
            any = true;
            long key = (bytes[at] & 0xFFL) | (bytes[at + 1] & 0xFFL) << 8 | (bytes[at + 2] & 0xFFL) << 16 | (bytes[at + 3] & 0xFFL) << 24;
            if (telling(bytes, at)) {
                List<Long> met = places.get(key);
                if (met == null && places.size() < MOST_KEYS) {
                    met = new ArrayList<>(2);
                    places.put(key, met);
                }
                if (met != null) {
                    met.add(window.start() + at);
                }
            }
        }
        if (texts.size() < MOST_TEXTS) {
            text(window, bytes);
        }
        return any;
    }

    /** Four bytes that are neither fill nor mostly zero. */
    private static boolean telling(byte[] bytes, int at) {
        int zeros = 0;
        boolean same = true;
        for (int i = 0; i < 4; i++) {
            zeros += bytes[at + i] == 0 ? 1 : 0;
            same &= bytes[at + i] == bytes[at];
        }
        return zeros <= 1 && !same;
    }

    private void text(Window window, byte[] bytes) {
        int taken = 0;
        for (int step = 1; step <= 2; step++) {
            int from = -1;
            for (int at = 0; at <= bytes.length && taken < 4; at += step) {
                boolean prints = at + step <= bytes.length && bytes[at] >= 0x20 && bytes[at] < 0x7F && (step == 1 || bytes[at + 1] == 0);
                if (prints && from < 0) {
                    from = at;
                } else if (!prints && from >= 0) {
                    taken += piece(window, bytes, from, at, step);
                    from = -1;
                }
            }
        }
    }

    private int piece(Window window, byte[] bytes, int from, int to, int step) {
        int count = (to - from) / step;
        if (count < SHORTEST_TEXT || texts.size() >= MOST_TEXTS || !window.isRead(from, Math.min(to, bytes.length) - from)) {
            return 0;
        }
        StringBuilder text = new StringBuilder();
        int letters = 0;
        for (int i = 0; i < Math.min(count, LONGEST_TEXT); i++) {
            char c = (char) bytes[from + i * step];
            letters += Character.isLetter(c) || c == ' ' ? 1 : 0;
            text.append(c);
        }
        if (letters * 3 < text.length() * 2 || !known.add(text.toString())) {
            return 0;
        }
        texts.add(new ContentLook.Text(window.address(from), text.toString(), step == 1 ? "ascii" : "utf-16"));
        return 1;
    }

    private List<ContentLook.Repeat> repeats() {
        return places.entrySet().stream().filter(e -> e.getValue().size() >= REPEATS)
                .sorted(Comparator.comparingInt((Map.Entry<Long, List<Long>> e) -> -e.getValue().size()).thenComparing(Map.Entry::getKey))
                .limit(MOST_REPEATS).map(e -> repeat(e.getKey(), e.getValue())).toList();
    }

    private ContentLook.Repeat repeat(long key, List<Long> met) {
        Map<Long, Integer> distances = new HashMap<>();
        for (int i = 1; i < met.size(); i++) {
            long distance = met.get(i) - met.get(i - 1);
            if (distance < WINDOW) {
                distances.merge(distance, 1, Integer::sum);
            }
        }
        long stride = distances.entrySet().stream().max(Map.Entry.<Long, Integer>comparingByValue().thenComparing(e -> -e.getKey()))
                .map(Map.Entry::getKey).orElse(0L);
        int fitting = 0;
        int all = 0;
        for (Map.Entry<Long, Integer> entry : distances.entrySet()) {
            all += entry.getValue();
            fitting += stride > 0 && entry.getKey() % stride == 0 ? entry.getValue() : 0;
        }
        StringBuilder hex = new StringBuilder();
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < 4; i++) {
            int b = (int) (key >> 8 * i) & 0xFF;
            hex.append(String.format(i == 0 ? "%02X" : " %02X", b));
            text.append(b >= 0x20 && b < 0x7F ? (char) b : '.');
        }
        return new ContentLook.Repeat(hex.toString(), text.toString(), stride, all == 0 ? 0 : 100 * fitting / all, met.size(), met.get(0),
                constant(met));
    }

    /** How many bytes from the start on are the same at the places, up to 64, of which some are looked at. */
    private int constant(List<Long> met) {
        byte[] first = image.window(met.get(0), 64).raw(0, 64);
        int same = 64;
        for (int i = 1; i < Math.min(met.size(), 16); i++) {
            byte[] other = image.window(met.get(i * (met.size() - 1) / Math.min(met.size() - 1, 15)), 64).raw(0, 64);
            int at = 0;
            while (at < same && first[at] == other[at]) {
                at++;
            }
            same = at;
        }
        return same;
    }
}
