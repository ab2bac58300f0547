package sectorglass.make.fat;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HashSet;
import java.util.Locale;
import java.util.Set;

/** Short and long names of one directory (Microsoft FAT specification, "FAT Directory Structure" and "Long File Names"). */
final class FatNames {
    /** Characters that no short name holds, beside control characters and the space. */
    private static final String ILLEGAL = "\"*+,./:;<=>?[\\]|";
    private static final int UNITS = 13;

    private final Set<String> taken = new HashSet<>();

    /** Whether a name is its own short name. */
    static boolean fitsShort(String name) {
        int dot = name.indexOf('.');
        String base = dot < 0 ? name : name.substring(0, dot);
        String extension = dot < 0 ? "" : name.substring(dot + 1);
        return !base.isEmpty() && base.length() <= 8 && extension.length() <= 3 && (dot < 0 || !extension.isEmpty())
                && (base + extension).chars().allMatch(FatNames::isShort);
    }

    private static boolean isShort(int unit) {
        return unit > 0x20 && unit < 0x7F && ILLEGAL.indexOf(unit) < 0 && !(unit >= 'a' && unit <= 'z');
    }

    /** Number of long-name slots that a name needs before its entry. */
    static int longSlots(String name) {
        return fitsShort(name) ? 0 : (name.length() + UNITS - 1) / UNITS;
    }

    /**
     * The eleven bytes of a name's entry, unlike all others of this directory.
     *
     * @throws IllegalArgumentException if the name is empty, too long, or holds what no long name may hold
     */
    byte[] shortName(String name) {
        check(name);
        if (fitsShort(name)) {
            int dot = name.indexOf('.');
            String bytes = dot < 0 ? pad(name, "") : pad(name.substring(0, dot), name.substring(dot + 1));
            if (!taken.add(bytes)) {
                throw new IllegalArgumentException("two entries named " + name);
            }
            return bytes.getBytes(StandardCharsets.US_ASCII);
        }
        int dot = name.lastIndexOf('.');
        String base = clean(dot > 0 ? name.substring(0, dot) : name, 6);
        String extension = dot > 0 ? clean(name.substring(dot + 1), 3) : "";
        for (int number = 1; number < 1_000_000; number++) {
            String tail = "~" + number;
            String candidate = pad(base.substring(0, Math.min(base.length(), 8 - tail.length())) + tail, extension);
            if (taken.add(candidate)) {
                return candidate.getBytes(StandardCharsets.US_ASCII);
            }
        }
        throw new IllegalArgumentException("no short name left for " + name);
    }

    private static void check(String name) {
        boolean legal = !name.isEmpty() && name.length() <= 255 && !name.endsWith(".") && !name.endsWith(" ")
                && name.chars().allMatch(unit -> unit >= 0x20 && "\"*/:<>?\\|".indexOf(unit) < 0);
        if (!legal) {
            throw new IllegalArgumentException("FAT cannot store the name \"" + name + "\"");
        }
    }

    private static String clean(String part, int length) {
        StringBuilder text = new StringBuilder();
        String upper = part.toUpperCase(Locale.ROOT);
        for (int i = 0; i < upper.length() && text.length() < length; i++) {
            char unit = upper.charAt(i);
            if (unit != ' ' && unit != '.') {
                text.append(isShort(unit) ? unit : '_');
            }
        }
        return text.length() == 0 && length > 3 ? "_" : text.toString();
    }

    private static String pad(String base, String extension) {
        return base + " ".repeat(8 - base.length()) + extension + " ".repeat(3 - extension.length());
    }

    /** Sum over the bytes of the short name that every long-name slot holds. */
    static int checksum(byte[] shortName) {
        int sum = 0;
        for (byte unit : shortName) {
            sum = ((sum & 1) << 7 | sum >> 1) + (unit & 0xFF) & 0xFF;
        }
        return sum;
    }

    /** Label of a volume as eleven bytes. */
    static byte[] label(String label) {
        byte[] bytes = new byte[11];
        Arrays.fill(bytes, (byte) ' ');
        byte[] text = label.toUpperCase(Locale.ROOT).getBytes(StandardCharsets.US_ASCII);
        if (text.length > 11) {
            throw new IllegalArgumentException("FAT stores 11 characters of a label: " + label);
        }
        System.arraycopy(text, 0, bytes, 0, text.length);
        return bytes;
    }
}
