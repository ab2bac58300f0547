package sectorglass.decode.internal.text;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/**
 * Dates and times of file systems. Sources: FILETIME, 100 ns from 1601-01-01 UTC (Microsoft [MS-DTYP], section 2.3.3); seconds from
 * 1970-01-01 UTC (POSIX.1-2017, base definitions, section 4.16); seconds from 1904-01-01 (Apple TN1150, "HFS Plus Dates"); FAT date and
 * time words (Microsoft FAT specification of 2000, "Date and Time Formats").
 *
 * @param kind which
 */
record DateUnit(Kind kind) implements Unit {
    private static final DateTimeFormatter BOTH = DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm:ss", Locale.ROOT);
    private static final long FILETIME_EPOCH = -11_644_473_600L;
    private static final long MAC_EPOCH = -2_082_844_800L;

    /** Forms of dates. */
    enum Kind {
        FILETIME, UNIX, UNIX_BE, UNIX_MILLI, UNIX_NANO, MAC_TIME, MAC_TIME_LOCAL, DOS_DATE, DOS_TIME, DOS_DATE_TIME;

        String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    @Override
    public String word() {
        return kind.word();
    }

    @Override
    public String value(Object raw, boolean unsigned) {
        return null;
    }

    @Override
    public String meaning(Object raw, boolean unsigned) {
        if (!(raw instanceof Long number)) {
            return null;
        }
        if (number == 0 && kind != Kind.DOS_TIME) {
            return Texts.of("meaning.not-set");
        }
        try {
            return switch (kind) {
                case FILETIME -> utc(FILETIME_EPOCH + Long.divideUnsigned(number, 10_000_000));
                case UNIX, UNIX_BE -> utc(number);
                case UNIX_MILLI -> utc(Math.floorDiv(number, 1000L));
                case UNIX_NANO -> utc(Math.floorDiv(number, 1_000_000_000L));
                case MAC_TIME -> utc(MAC_EPOCH + number);
                case MAC_TIME_LOCAL -> local(MAC_EPOCH + number);
                case DOS_DATE -> dosDate(number.intValue()).toString();
                case DOS_TIME -> time(dosTime(number.intValue()));
                case DOS_DATE_TIME -> dosDate((int) (number >>> 16)) + " " + time(dosTime(number.intValue()));
            };
        } catch (DateTimeException e) {
            return Texts.of("meaning.no-date");
        }
    }

    private static String utc(long seconds) {
        return local(seconds) + " UTC";
    }

    private static String local(long seconds) {
        LocalDateTime moment = LocalDateTime.ofInstant(Instant.ofEpochSecond(seconds), ZoneOffset.UTC);
        if (moment.getYear() > 9999 || moment.getYear() < 1) {
            throw new DateTimeException("year");
        }
        return BOTH.format(moment);
    }

    private static LocalDate dosDate(int word) {
        return LocalDate.of(1980 + (word >> 9 & 0x7F), word >> 5 & 0xF, word & 0x1F);
    }

    private static LocalTime dosTime(int word) {
        return LocalTime.of(word >> 11 & 0x1F, word >> 5 & 0x3F, (word & 0x1F) * 2);
    }

    private static String time(LocalTime time) {
        return DateTimeFormatter.ofPattern("HH:mm:ss", Locale.ROOT).format(time);
    }
}
