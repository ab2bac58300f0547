package sectorglass.make.write;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;

/** Dates and times as FAT and exFAT pack them, taken as UTC. */
public final class FatTime {

    private FatTime() {
    }

    /**
     * Date in the upper 16 bits, time in the lower ones.
     *
     * @throws IllegalArgumentException if the year is outside 1980 to 2107
     */
    public static long packed(Instant instant) {
        LocalDateTime time = LocalDateTime.ofInstant(instant, ZoneOffset.UTC);
        int year = time.getYear() - 1980;
        if (year < 0 || year > 127) {
            throw new IllegalArgumentException("FAT tells no date of " + instant);
        }
        long date = year << 9 | time.getMonthValue() << 5 | time.getDayOfMonth();
        return date << 16 | time.getHour() << 11 | time.getMinute() << 5 | time.getSecond() / 2;
    }

    /** What {@link #packed} leaves out, in units of 10 ms: 0 to 199. */
    public static int tenMillis(Instant instant) {
        LocalDateTime time = LocalDateTime.ofInstant(instant, ZoneOffset.UTC);
        return time.getSecond() % 2 * 100 + time.getNano() / 10_000_000;
    }
}
