package sectorglass.report.delivery;

import java.text.NumberFormat;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.Locale;

import sectorglass.image.Texts;

/** Numbers, sizes and dates in the form of a language, and its sentences. */
final class Forms {
    private static final String[] UNITS = {"B", "kB", "MB", "GB", "TB", "PB", "EB"};

    private final Texts texts;
    private final NumberFormat whole;
    private final NumberFormat tenths;
    private final DateTimeFormatter day;
    private final DateTimeFormatter moment;

    Forms(Locale locale) {
        texts = new Texts(Forms.class, locale);
        whole = NumberFormat.getIntegerInstance(locale);
        tenths = NumberFormat.getNumberInstance(locale);
        tenths.setMinimumFractionDigits(1);
        tenths.setMaximumFractionDigits(1);
        day = DateTimeFormatter.ofLocalizedDate(FormatStyle.LONG).withLocale(locale);
        moment = DateTimeFormatter.ofLocalizedDateTime(FormatStyle.MEDIUM, FormatStyle.SHORT).withLocale(locale);
    }

    /** A sentence; numbers are put into form first. */
    String of(String key, Object... values) {
        Object[] formed = new Object[values.length];
        for (int i = 0; i < values.length; i++) {
            formed[i] = values[i] instanceof Long || values[i] instanceof Integer ? count(((Number) values[i]).longValue()) : values[i];
        }
        return texts.of(key, formed);
    }

    String count(long number) {
        return whole.format(number);
    }

    /** A size in the units that people know: steps of a thousand. */
    String size(long bytes) {
        if (bytes < 1000) {
            return whole.format(bytes) + " B";
        }
        double value = bytes;
        int unit = 0;
        while (value >= 999.95 && unit < UNITS.length - 1) {
            value /= 1000;
            unit++;
        }
        return tenths.format(value) + "\u00A0" + UNITS[unit];
    }

    /** A part of a whole; never "100 %" where something is missing, never "0 %" where something is there. */
    String share(long part, long of) {
        if (of == 0 || part == of) {
            return of == 0 ? "" : "100\u00A0%";
        }
        double percent = 100.0 * part / of;
        return (part > 0 && percent < 0.1 ? "< " + tenths.format(0.1) : percent > 99.9 ? "> " + tenths.format(99.9) : tenths.format(percent)) + "\u00A0%";
    }

    String day(Instant at, ZoneId zone) {
        return day.format(at.atZone(zone));
    }

    String moment(LocalDateTime at) {
        return moment.format(at);
    }

    Locale locale() {
        return texts.locale();
    }
}
