package sectorglass.workbench.look;

import java.util.Locale;

/** Numbers as the window writes them: digits grouped by thin spaces, sizes in GB and GiB together. */
public final class Numbers {
    /** Thin space, U+2009. */
    public static final char THIN = '\u2009';
    private static final String[] DECIMAL = {"bytes", "kB", "MB", "GB", "TB", "PB", "EB"};
    private static final String[] BINARY = {"bytes", "KiB", "MiB", "GiB", "TiB", "PiB", "EiB"};

    private Numbers() {
    }

    /** A whole number with its digits in groups of three. */
    public static String grouped(long number) {
        return grouped(Long.toString(number), THIN);
    }

    /** The same with a separator of one's choice. */
    public static String grouped(String digits, char separator) {
        boolean minus = digits.startsWith("-");
        String bare = minus ? digits.substring(1) : digits;
        StringBuilder text = new StringBuilder(bare.length() + 6);
        for (int i = 0; i < bare.length(); i++) {
            if (i > 0 && (bare.length() - i) % 3 == 0) {
                text.append(separator);
            }
            text.append(bare.charAt(i));
        }
        return minus ? "\u2212" + text : text.toString();
    }

    /** A size in decimal and binary units: "100 GB (93.1 GiB)". */
    public static String size(long bytes) {
        if (bytes < 1000) {
            return bytes + (bytes == 1 ? " byte" : " bytes");
        }
        String decimal = scaled(bytes, 1000, DECIMAL);
        String binary = scaled(bytes, 1024, BINARY);
        return bytes < 1024 ? decimal : decimal + " (" + binary + ")";
    }

    private static String scaled(long bytes, int step, String[] units) {
        double value = bytes;
        int unit = 0;
        while (value >= step && unit < units.length - 1) {
            value /= step;
            unit++;
        }
        if (unit == 0) {
            return bytes + " " + units[0];
        }
        String text = String.format(Locale.ROOT, value >= 99.95 ? "%.0f" : value >= 9.995 ? "%.1f" : "%.2f", value);
        if (text.indexOf('.') >= 0) {
            text = text.replaceAll("0+$", "").replaceAll("\\.$", "");
        }
        return text + " " + units[unit];
    }

    /** Upper case hex with at least this many digits. */
    public static String hex(long number, int digits) {
        String text = Long.toHexString(number).toUpperCase(Locale.ROOT);
        return text.length() >= digits ? text : "0".repeat(digits - text.length()) + text;
    }

    /** "LBA 1 · 1C0": the sector and the byte in it, hex. */
    public static String place(long address, int sectorSize) {
        return "LBA " + grouped(address / sectorSize) + " \u00B7 " + hex(address % sectorSize, 3);
    }
}
