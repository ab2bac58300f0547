package sectorglass.decode.internal.text;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;

/** Numbers of bytes in decimal and binary units. */
final class Sizes {
    private static final String[] DECIMAL = {"B", "kB", "MB", "GB", "TB", "PB", "EB", "ZB"};
    private static final String[] BINARY = {"B", "KiB", "MiB", "GiB", "TiB", "PiB", "EiB", "ZiB"};

    private Sizes() {
    }

    /** {@code 500.1 GB (465.8 GiB)}; null below 1,000 bytes. The number counts as unsigned. */
    static String words(long number, int factor) {
        BigInteger bytes = new BigInteger(Long.toUnsignedString(number)).multiply(BigInteger.valueOf(factor));
        if (bytes.bitLength() < 10 && bytes.intValue() < 1000) {
            return factor == 1 ? null : bytes + " B";
        }
        return scaled(bytes, 1000, DECIMAL) + " (" + scaled(bytes, 1024, BINARY) + ")";
    }

    private static String scaled(BigInteger bytes, int step, String[] units) {
        BigDecimal value = new BigDecimal(bytes);
        BigDecimal divisor = BigDecimal.valueOf(step);
        int unit = 0;
        while (value.compareTo(divisor) >= 0 && unit < units.length - 1) {
            value = value.divide(divisor, 6, RoundingMode.HALF_UP);
            unit++;
        }
        return value.setScale(unit == 0 ? 0 : 1, RoundingMode.HALF_UP).toPlainString() + " " + units[unit];
    }
}
