package sectorglass.workbench.convert;

import java.math.BigInteger;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;

/**
 * A moment in the forms that disks hold. Sources: FILETIME, 100 ns from 1601-01-01 UTC (Microsoft [MS-DTYP], section 2.3.3); seconds from
 * 1970-01-01 UTC (POSIX.1-2017, base definitions, section 4.16); seconds from 1904-01-01 (Apple TN1150, "HFS Plus Dates"); date and time
 * words in local time from 1980 on (Microsoft FAT specification of 2000, "Date and Time Formats").
 */
final class Moments {
    private static final DateTimeFormatter SHOWN = DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm:ss", Locale.ROOT);
    private static final Pattern TYPED = Pattern.compile("(\\d{4})-(\\d\\d)-(\\d\\d)(?:[T ](\\d\\d):(\\d\\d)(?::(\\d\\d))?)?\\s*(UTC|Z)?",
            Pattern.CASE_INSENSITIVE);
    /** Seconds from 1601 to 1970. */
    private static final long FILETIME_EPOCH = 11_644_473_600L;
    /** Seconds from 1904 to 1970. */
    private static final long MAC_EPOCH = 2_082_844_800L;
    private static final long TICKS = 10_000_000L;

    private Moments() {
    }

    /** A moment as typed: a date, or date and time; local unless UTC follows. */
    static Optional<Instant> typed(String text, ZoneId zone) {
        Matcher m = TYPED.matcher(text);
        if (!m.matches()) {
            return Optional.empty();
        }
        try {
            LocalDateTime moment = LocalDateTime.of(number(m.group(1)), number(m.group(2)), number(m.group(3)), number(m.group(4)),
                    number(m.group(5)), number(m.group(6)));
            return Optional.of(m.group(7) != null ? moment.toInstant(ZoneOffset.UTC) : moment.atZone(zone).toInstant());
        } catch (DateTimeException e) {
            return Optional.empty();
        }
    }

    private static int number(String digits) {
        return digits == null ? 0 : Integer.parseInt(digits);
    }

    /** Local time and UTC. */
    static void shown(List<Form> into, String what, Instant moment, ZoneId zone) {
        into.add(new Form(what, SHOWN.format(LocalDateTime.ofInstant(moment, ZoneOffset.UTC)) + " UTC  =  "
                + SHOWN.format(LocalDateTime.ofInstant(moment, zone)) + " " + zone.getId()));
    }

    /** The moment as the numbers that disks hold. */
    static void numbers(List<Form> into, Instant moment, ZoneId zone) {
        shown(into, Texts.of("convert.moment"), moment, zone);
        long seconds = moment.getEpochSecond();
        long ticks = (seconds + FILETIME_EPOCH) * TICKS;
        if (seconds >= -FILETIME_EPOCH) {
            into.add(new Form("FILETIME", Numbers.grouped(ticks) + "  =  0x" + Numbers.hex(ticks, 16)));
        }
        into.add(new Form(Texts.of("convert.unix"), Numbers.grouped(seconds) + (seconds < 0 ? "" : "  =  0x" + Numbers.hex(seconds, 8))));
        long mac = seconds + MAC_EPOCH;
        if (mac >= 0 && mac <= 0xFFFF_FFFFL) {
            into.add(new Form(Texts.of("convert.mac"), Numbers.grouped(mac) + "  =  0x" + Numbers.hex(mac, 8)));
        }
        LocalDateTime local = LocalDateTime.ofInstant(moment, zone);
        if (local.getYear() >= 1980 && local.getYear() <= 2107) {
            int date = local.getYear() - 1980 << 9 | local.getMonthValue() << 5 | local.getDayOfMonth();
            int time = local.getHour() << 11 | local.getMinute() << 5 | local.getSecond() / 2;
            into.add(new Form(Texts.of("convert.dos"), "0x" + Numbers.hex(date, 4) + ", 0x" + Numbers.hex(time, 4)));
        }
    }

    /** What dates a number would be; years far from any disk are left out. */
    static void guesses(List<Form> into, BigInteger number, ZoneId zone) {
        if (number.signum() <= 0 || number.bitLength() > 63) {
            return;
        }
        long value = number.longValue();
        guess(into, "FILETIME", value / TICKS - FILETIME_EPOCH, zone);
        guess(into, Texts.of("convert.unix"), value, zone);
        guess(into, Texts.of("convert.mac"), value - MAC_EPOCH, zone);
    }

    private static void guess(List<Form> into, String what, long seconds, ZoneId zone) {
        if (seconds >= 315_532_800L && seconds < 4_354_819_200L) { // 1980 to 2107
            shown(into, what, Instant.ofEpochSecond(seconds), zone);
        }
    }

    /** The moment of a stored number, or empty where the unit is none of a date that is counted in UTC. */
    static Optional<Instant> stored(String unit, long raw) {
        if (unit == null || raw == 0) {
            return Optional.empty();
        }
        long seconds = switch (unit) {
            case "filetime" -> Long.divideUnsigned(raw, TICKS) - FILETIME_EPOCH;
            case "unix", "unix-be" -> raw;
            case "unix-milli" -> Math.floorDiv(raw, 1000L);
            case "unix-nano" -> Math.floorDiv(raw, 1_000_000_000L);
            case "mac-time" -> raw - MAC_EPOCH;
            default -> Long.MIN_VALUE;
        };
        return Math.abs(seconds / 2) > 100_000_000_000L ? Optional.empty() : Optional.of(Instant.ofEpochSecond(seconds));
    }
}
