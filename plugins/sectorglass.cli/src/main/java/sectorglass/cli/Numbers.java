package sectorglass.cli;

import java.util.Locale;

/** Numbers as the trade writes them. */
final class Numbers {

    private Numbers() {
    }

    /** Digits in groups of three with thin spaces. */
    static String grouped(long number) {
        return String.format(Locale.ROOT, "%,d", number).replace(',', '\u2009');
    }

    /** A size in decimal and binary units: {@code 500.1 GB (465.8 GiB)}. */
    static String size(long bytes) {
        return scaled(bytes, 1000, new String[] {"B", "kB", "MB", "GB", "TB", "PB", "EB"}) + " ("
                + scaled(bytes, 1024, new String[] {"B", "KiB", "MiB", "GiB", "TiB", "PiB", "EiB"}) + ")";
    }

    private static String scaled(long bytes, int step, String[] units) {
        double value = bytes;
        int unit = 0;
        while (value >= step && unit < units.length - 1) {
            value /= step;
            unit++;
        }
        return unit == 0 ? bytes + " B" : String.format(Locale.ROOT, "%.1f %s", value, units[unit]);
    }

    /** A byte address in decimal and hex. */
    static String address(long imageByte) {
        return grouped(imageByte) + " (0x" + Long.toHexString(imageByte).toUpperCase(Locale.ROOT) + ")";
    }
}
