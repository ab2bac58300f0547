package sectorglass.workbench.parts;

import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;

import sectorglass.image.SafeText;
import sectorglass.image.Window;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Texts;

/** What bytes that no field explains would be as number, date, identity or text. */
final class Guesses {
    /** Seconds from 1601-01-01 to 1970-01-01: 369 years of which 89 are leap years. */
    private static final long FILETIME_EPOCH = (369L * 365 + 89) * 86_400;
    /** Dates before or after these years are left out: chance numbers. */
    private static final int FIRST_YEAR = 1980;
    private static final int LAST_YEAR = 2107;

    private Guesses() {
    }

    /** Adds what the bytes from the start of the window would be. */
    static void add(Prose prose, Window w) {
        if (w.length() >= 1 && w.isRead(0, 1)) {
            prose.line(Texts.of("guess.u8"), w.u8(0) + " (" + Numbers.hex(w.u8(0), 2) + ")");
        }
        if (w.length() >= 2 && w.isRead(0, 2)) {
            both(prose, "guess.u16", Numbers.grouped(w.u16le(0)), Numbers.grouped(w.u16be(0)));
        }
        if (w.length() >= 4 && w.isRead(0, 4)) {
            both(prose, "guess.u32", Numbers.grouped(w.u32le(0)), Numbers.grouped(w.u32be(0)));
        }
        if (w.length() >= 8 && w.isRead(0, 8)) {
            both(prose, "guess.u64", unsigned(w.u64le(0)), unsigned(w.u64be(0)));
        }
        List<String> dates = dates(w);
        if (!dates.isEmpty()) {
            prose.line(Texts.of("guess.date"), String.join("; ", dates));
        }
        if (w.length() >= 16 && w.isRead(0, 16) && !w.filled(0, 16, 0)) {
            prose.line(Texts.of("guess.guid"), guid(w));
        }
        String text = text(w);
        if (text != null) {
            prose.line(Texts.of("guess.text"), "\u201C" + text + "\u201D");
        }
    }

    private static void both(Prose prose, String key, String little, String big) {
        prose.line(Texts.of(key), little.equals(big) ? little : Texts.of("guess.orders", little, big));
    }

    private static String unsigned(long value) {
        return Numbers.grouped(Long.toUnsignedString(value), Numbers.THIN);
    }

    static List<String> dates(Window w) {
        List<String> found = new ArrayList<>();
        if (w.length() >= 8 && w.isRead(0, 8)) {
            long ticks = w.u64le(0);
            if (ticks > 0) {
                date(found, "FILETIME", ticks / 10_000_000 - FILETIME_EPOCH);
            }
        }
        if (w.length() >= 4 && w.isRead(0, 4)) {
            date(found, "POSIX", w.u32le(0));
            int time = w.u16le(0);
            int day = w.u16le(2);
            try {
                LocalDateTime dos = LocalDateTime.of(FIRST_YEAR + (day >> 9), day >> 5 & 15, day & 31, time >> 11, time >> 5 & 63, (time & 31) * 2);
                found.add(Texts.of("guess.dos", dos.toString().replace('T', ' ')));
            } catch (DateTimeException e) {
                // not a date
            }
        }
        return found;
    }

    private static void date(List<String> found, String kind, long seconds) {
        try {
            Instant instant = Instant.ofEpochSecond(seconds);
            int year = instant.atZone(java.time.ZoneOffset.UTC).getYear();
            if (year >= FIRST_YEAR && year <= LAST_YEAR && seconds > 86_400L * 365 * 12) {
                found.add(instant.toString().replace('T', ' ').replace("Z", " UTC") + " (" + kind + ")");
            }
        } catch (DateTimeException e) {
            // not a date
        }
    }

    static String guid(Window w) {
        StringBuilder text = new StringBuilder(36);
        text.append(Numbers.hex(w.u32le(0), 8)).append('-').append(Numbers.hex(w.u16le(4), 4)).append('-').append(Numbers.hex(w.u16le(6), 4))
                .append('-');
        for (int i = 8; i < 16; i++) {
            text.append(Numbers.hex(w.u8(i), 2)).append(i == 9 ? "-" : "");
        }
        return text.toString().toLowerCase(java.util.Locale.ROOT);
    }

    private static String text(Window w) {
        int length = 0;
        while (length < w.length() && w.isRead(length, 1) && w.u8(length) >= 0x20 && w.u8(length) < 0x7F) {
            length++;
        }
        return length < 3 ? null : SafeText.of(w.text(0, length, StandardCharsets.US_ASCII));
    }
}
